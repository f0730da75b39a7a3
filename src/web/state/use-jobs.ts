/** The shop's jobs: the list kept on this device at once, and the shop's own as soon as it answers. */
import { useEffect, useState } from 'react';
import type { Problem } from '../../domain/problem.ts';
import { keepSetting, setting } from './base.ts';
import { fetchJobs, type JobListed } from './client.ts';
import { keepLastJob, lastJob } from './keep.ts';

export interface Jobs {
  readonly list: readonly JobListed[] | null;
  readonly problem: Problem | null;
}

const KEY = 'jobs';
const AGAIN_MS = 2_000;

export function useJobs(): Jobs {
  const [jobs, setJobs] = useState<Jobs>({ list: null, problem: null });
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let current = true;
    const look = async () => {
      const got = await fetchJobs();
      if (!current) return;
      if (got.ok) {
        setJobs({ list: got.value, problem: null });
        void keepSetting(KEY, got.value).catch(() => undefined);
        return;
      }
      setJobs((was) => ({ ...was, problem: got.problem }));
      timer = setTimeout(() => void look(), AGAIN_MS);
    };
    void setting<readonly JobListed[]>(KEY)
      .catch(() => undefined)
      .then((kept) => {
        if (current && kept !== undefined) setJobs((was) => ({ ...was, list: was.list ?? kept }));
      });
    void look();
    return () => {
      current = false;
      clearTimeout(timer);
    };
  }, []);
  return jobs;
}

/**
 * The job to open: the one of the address, else the one open last on this device, else the first. Before the list is here, a job that
 * was open on this device before needs no list: the camera opens on it at once.
 */
export function chosenJob(list: readonly JobListed[] | null, asked: string | null): string | undefined {
  const last = lastJob();
  if (list === null) return last !== null && (asked === null || asked === last) ? last : undefined;
  const id = (list.find((j) => j.id === asked) ?? list.find((j) => j.id === last) ?? list[0])?.id;
  if (id !== undefined && id !== last) keepLastJob(id);
  return id;
}
