/** A sheet of the open job: the frame, the phone's heading and the title block, which are the same on every view. */
import type { JobListed } from '../state/client.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { type Screen, useScreen } from '../state/use-screen.ts';
import { PhoneTop, type PhoneTopProps } from './phone-top.tsx';
import { Sheet, type SheetProps } from './sheet.tsx';
import { farWords, TitleBlock } from './title-block.tsx';
import { viewName } from './views.ts';

type Both = Pick<SheetProps, 'view' | 'keys' | 'theme' | 'onTheme' | 'list' | 'draw'> &
  Partial<Pick<PhoneTopProps, 'under' | 'other' | 'undo'>>;

export interface JobSheetProps extends Both {
  readonly jobs: readonly JobListed[];
  /** What the browser and the phone's heading call it, where that is more than the name of the view. */
  readonly name?: string;
  readonly heading?: string;
  /** Stands beside the view in the index. */
  readonly count?: string | undefined;
  /** What the address says of this job and of no other. */
  readonly ofJob: readonly string[];
  /** The drawing half takes the place of the list, on a phone; false for views that lay themselves out. */
  readonly showDraw?: boolean;
  readonly phoneScreen?: Screen;
}

export function JobSheet(p: JobSheetProps) {
  const { job, person, choosePerson, network } = useOpenJob();
  const screen = useScreen();
  const sheet = viewName(p.view);
  const more = {
    ...(p.other !== undefined && { other: p.other }),
    ...(p.undo !== undefined && { undo: p.undo }),
  };
  return (
    <Sheet
      view={p.view}
      name={p.name ?? sheet}
      search={screen.search}
      counts={{ [p.view]: p.count }}
      invented={job.invented}
      keys={p.keys}
      theme={p.theme}
      onTheme={p.onTheme}
      showDraw={p.showDraw ?? screen.get('show') === 'drawing'}
      top={
        <PhoneTop
          sheet={p.heading ?? sheet}
          under={p.under ?? farWords(job)}
          screen={p.phoneScreen ?? screen}
          light={{ theme: p.theme, onTheme: p.onTheme }}
          jobs={p.jobs}
          {...more}
        />
      }
      list={p.list}
      draw={p.draw}
      title={
        <TitleBlock
          job={job}
          jobs={p.jobs}
          sheet={sheet}
          person={person}
          network={network}
          onJob={(id) => screen.set({ ...Object.fromEntries(p.ofJob.map((key) => [key, null])), job: id }, true)}
          onPerson={choosePerson}
        />
      }
    />
  );
}
