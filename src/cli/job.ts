/** Opening a job from the command line, and the stamp of what is recorded there. */
import { problem } from '../domain/problem.ts';
import { isTimeWithOffset, type Stamp } from '../journal/entry.ts';
import { isJobFolder, isShopFolder, type JobFolder, openJob, SYSTEM_CLOCK, systemIds } from '../store/index.ts';
import { tell } from './io.ts';
import { cliProblem } from './parse.ts';

const ids = systemIds();

export function openForReading(path: string): JobFolder {
  return opened(path, true);
}

export function openForWriting(path: string): JobFolder {
  const job = opened(path, false);
  if (!job.readOnly) return job;
  job.close();
  return tell(
    job.problems[0] ?? problem('NO_JOB_HERE', `"${path}" can only be read`, 'Run `witnessmark verify` on it.'),
  );
}

function opened(path: string, readOnly: boolean): JobFolder {
  if (isShopFolder(path))
    tell(cliProblem('NO_JOB_HERE', `"${path}" is a shop; name one of its jobs, ${path}/jobs/NAME.job`));
  if (!isJobFolder(path)) tell(cliProblem('NO_JOB_HERE', `"${path}" holds no job`));
  const job = openJob(path, { readOnly });
  return job.ok ? job.value : tell(job.problem);
}

export function makeStamp(o: { readonly by?: string; readonly device?: string; readonly at?: string }): Stamp {
  if (o.at !== undefined && !isTimeWithOffset(o.at)) {
    tell(cliProblem('BAD_OPTION', `"${o.at}" is no time with offset, like 2025-11-18T09:31:00+01:00`, '--at'));
  }
  return {
    id: ids.next(),
    at: o.at ?? SYSTEM_CLOCK.now(),
    by: o.by ?? 'command-line',
    device: o.device ?? 'command-line',
  };
}
