/**
 * Writes the invented aircraft as a rig file, one element a line: `tsx tools/demo-rig.ts`. `demo/rig-file.test.ts` says
 * when the committed file is not what the source gives.
 */
import { writeFileSync } from 'node:fs';
import { demoRig } from '../demo/rig/index.ts';
import { rigText } from '../demo/rig-text.ts';

const FILE = new URL('../demo/qx-ola.rig.json', import.meta.url);

writeFileSync(FILE, rigText(demoRig()));
