/** A rig as the text of a `*.rig.json` file: one element a line, so that a change shows as the line it is. */
import type { Rig } from '../src/domain/rig/rig-types.ts';

export function rigText(rig: Rig): string {
  const fields = Object.entries(rig).map(([key, value]) => {
    const name = JSON.stringify(key);
    if (!Array.isArray(value)) return `  ${name}: ${JSON.stringify(value)}`;
    if (value.length === 0) return `  ${name}: []`;
    return `  ${name}: [\n${value.map((item) => `    ${JSON.stringify(item)}`).join(',\n')}\n  ]`;
  });
  return `{\n${fields.join(',\n')}\n}\n`;
}
