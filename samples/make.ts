/** `npm run samples`: writes the demo kit's audio and its manifest into samples/kit, the same bytes every time. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { makeKit } from './model/kit';

const folder = fileURLToPath(new URL('./kit/', import.meta.url));
mkdirSync(folder, { recursive: true });
let total = 0;
for (const { name, bytes } of makeKit()) {
  writeFileSync(folder + name, bytes);
  total += bytes.length;
  console.log(`${name}  ${bytes.length} bytes`);
}
console.log(`${(total / 1e6).toFixed(2)} MB in samples/kit`);
