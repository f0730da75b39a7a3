/** The other half of the sheet: tapped where it sat. The tap is the pin; the part under it is named with it. */
import { type MouseEvent, useCallback, useMemo, useRef } from 'react';
import { sheetFor, sheetsOfJob } from '../drawing/catalogue.ts';
import type { DrawingMarks } from '../drawing/drawing-view.tsx';
import { Plate } from '../drawing/plate.tsx';
import { lineOfPart } from '../words/names.ts';
import { choosePart, groupsOf, type Pin } from './carried.ts';
import type { CatchView } from './use-catch.ts';

const NONE: ReadonlySet<string> = new Set();
const NOTHING = () => undefined;

export function CatchDrawing({ view }: { readonly view: CatchView }) {
  const { open, screen, carried, parts, bag, acts } = view;
  const { job } = open;
  const tapped = useRef<Omit<Pin, 'sheet'> | null>(null);
  const assembly = carried.group;
  const sheets = sheetsOfJob(job.invented);
  const sheet = sheets.find((s) => s.id === screen.get('sheet')) ?? sheetFor(sheets, assembly);
  const marks = useMemo(
    (): DrawingMarks => ({
      on: new Set(parts.map(lineOfPart)),
      lit: NONE,
      harm: NONE,
      wanted: NONE,
      gone: new Set([...job.done.keys()].filter((a) => a.startsWith('remove:')).map((a) => lineOfPart(a.slice(7)))),
    }),
    [job, parts],
  );
  const choose = useCallback(
    (line: string) => {
      const of = job.find.filter((f) => lineOfPart(f.id) === line).map((f) => f.id);
      const part = of.find((id) => !job.done.has(`remove:${id}`)) ?? of[0];
      if (part === undefined) return;
      if (bag !== null) return acts.name(part);
      const pin = tapped.current === null || sheet === undefined ? null : { sheet: sheet.id, ...tapped.current };
      const group = groupsOf(job).find((g) => g.parts.includes(part));
      acts.carry({ ...choosePart(job, { ...carried, parts: [] }, part), pin, group: group?.id ?? carried.group });
    },
    [job, bag, acts, carried, sheet],
  );
  return (
    <>
      <div className="over">
        <div>
          <h2 className="eyebrow">Tap where it sat</h2>
          <p>the tap is the pin, and names the part under it</p>
        </div>
      </div>
      {/* Only listens on the way down for where the tap was; the drawing itself is what is tapped and moved by keys. */}
      <div className="canvas" onClickCapture={(e) => (tapped.current = placeOf(e))}>
        <Plate
          job={job}
          screen={screen}
          assembly={assembly}
          marks={marks}
          named={parts[0] === undefined ? null : lineOfPart(parts[0])}
          quiet="as designed, not as found · dashed: already off"
          onOver={NOTHING}
          onChoose={choose}
        />
      </div>
      <div className="bottom">
        <span />
        <button type="button" className="key go" onClick={() => screen.set({ show: null })}>
          {bag === null ? 'Back to the camera' : 'Back to the bag'}
        </button>
        <span />
      </div>
    </>
  );
}

/** In parts of the whole sheet, whatever is cropped or moved. */
function placeOf(e: MouseEvent<HTMLElement>): Omit<Pin, 'sheet'> | null {
  const svg = e.currentTarget.querySelector('.host')?.shadowRoot?.querySelector('svg');
  const inverse = svg?.getScreenCTM()?.inverse();
  const [x = 0, y = 0, wide = 1, high = 1] = (svg?.dataset.whole ?? '').split(/[ ,]+/).map(Number);
  if (inverse === undefined) return null;
  const at = new DOMPoint(e.clientX, e.clientY).matrixTransform(inverse);
  const part = (value: number) => Math.min(1, Math.max(0, Math.round(value * 10_000) / 10_000));
  return { x: part((at.x - x) / wide), y: part((at.y - y) / high) };
}
