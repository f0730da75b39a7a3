/** All drawing sheets of the job at once, alive: before anything is wanted, tapping a part says what is. */
import { useState } from 'react';
import type { JobView } from '../state/job-view.ts';
import { lineOfPart } from '../words/names.ts';
import { sheetsOfJob } from './catalogue.ts';
import { type DrawingMarks, DrawingView } from './drawing-view.tsx';
import { Caption } from './plate.tsx';

const NONE: ReadonlySet<string> = new Set();

export function ContactSheet({ job, onChoose }: { readonly job: JobView; readonly onChoose: (part: string) => void }) {
  const [hover, setHover] = useState<string | null>(null);
  const sheets = sheetsOfJob(job.invented);
  const gone = new Set([...job.done.keys()].filter((a) => a.startsWith('remove:')).map((a) => lineOfPart(a.slice(7))));
  const marks: DrawingMarks = {
    on: NONE,
    harm: NONE,
    wanted: NONE,
    gone,
    lit: hover === null ? NONE : new Set([hover]),
  };
  const choose = (line: string) => {
    const part = job.find.find((f) => lineOfPart(f.id) === line);
    if (part) onChoose(part.id);
  };
  if (sheets.length === 0)
    return <p className="plate quiet">This job has no drawing yet. The list and the tags say what holds what.</p>;
  const order = ['side', ...sheets.map((s) => s.id).filter((id) => id !== 'side' && id !== 'plan' && id !== 'front')];
  return (
    <div className="contact">
      {order.map((id) => {
        const sheet = sheets.find((s) => s.id === id);
        return (
          sheet && (
            <figure key={id} className={id === 'side' ? 'wide' : undefined}>
              <div className="art">
                <DrawingView
                  url={sheet.url}
                  label={`${sheet.name}, invented example`}
                  marks={marks}
                  small={id !== 'side'}
                  onHover={setHover}
                  onChoose={choose}
                />
              </div>
              <figcaption>{sheet.name}</figcaption>
            </figure>
          )
        );
      })}
      <p className="caption" role="status">
        <Caption job={job} line={hover} quiet="dashed: already off · as designed, not as found" />
      </p>
    </div>
  );
}
