import { launchPage } from './tests/support/page/launchPage.ts';
import { servePage } from './tests/support/page/servePage.ts';
import { playScene, answerWhen } from './tests/support/page/screen.ts';
process.env.CROSSHEAD_PAGE='.cache/page'; process.env.CROSSHEAD_BROWSER='/usr/bin/chromium';
const served = await servePage();
for (const [name,w,h] of [['desk',1440,900],['phone',390,844],['small',1280,720]] as const) {
  const { browser, page, errors } = await launchPage((served as any).url ?? (served as any).address);
  await page.setViewportSize({ width: w, height: h });
  await page.locator('[data-command="play-demo"]:enabled').waitFor();
  await playScene(page, process.argv[2] ?? 'snare-overhead');
  await answerWhen(page, 'measured', (a) => a.state === 'measured');
  await page.waitForTimeout(2500);
  await page.screenshot({ path: `/tmp/shots/${name}-${process.argv[2] ?? 'x'}.png` });
  console.log(name, errors); await browser.close();
}
await served.close();
