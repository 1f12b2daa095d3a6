/** `npm run samples`: writes the demo kit's audio, its manifest and its filled sheet into samples/kit, the same bytes every time. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { EXAMPLE_FILE, exampleSheet } from './example';
import { makeKit, makeManifest } from './model/demoKit';

const folder = fileURLToPath(new URL('./kit/', import.meta.url));
mkdirSync(folder, { recursive: true });
let total = 0;
const files = [...makeKit()];
const wavOf = (file: string): Uint8Array => {
  const found = files.find(({ name }) => name === file);
  if (!found) throw new Error(`no ${file}`);
  return found.bytes;
};
const example = new TextEncoder().encode(exampleSheet(makeManifest().scenes, wavOf));
for (const { name, bytes } of [...files, { name: EXAMPLE_FILE, bytes: example }]) {
  writeFileSync(folder + name, bytes);
  total += bytes.length;
  console.log(`${name}  ${bytes.length} bytes`);
}
console.log(`${(total / 1e6).toFixed(2)} MB in samples/kit`);
