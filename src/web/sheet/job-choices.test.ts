/** How jobs are told apart in the list to choose from. */
import { expect, it } from 'vitest';
import { demoJob, donorJob } from '../../../demo/history/index.ts';
import { dayOfJob } from '../../journal/job-day.ts';
import { jobChoices } from './title-block.tsx';

const listed = (id: string, state: Parameters<typeof dayOfJob>[0]) => ({
  id,
  name: state.job?.name ?? id,
  invented: true,
  day: dayOfJob(state).slice(0, 10),
});

it('the two days of one aircraft and the wreck are three different choices', () => {
  const jobs = [demoJob('2025-11-18'), demoJob('2026-04-14'), donorJob()].map((j) => listed(j.name, j.state));
  expect(jobs.map((j) => j.day)).toEqual(['2025-11-18', '2026-04-14', '2025-11-14']);
  const shown = jobChoices(jobs).map((c) => `${c.name}; ${c.more}`);
  expect(new Set(shown).size).toBe(3);
  expect(shown[0]).toMatch(/^QX-OLA, invented example; as it stands on .*18 November/);
});

it('a list kept by an older version, without days, still names its folders', () => {
  expect(jobChoices([{ id: 'own', name: 'Ours', invented: false }])).toEqual([
    { id: 'own', name: 'Ours', more: 'folder own' },
  ]);
});
