/**
 * A roll of codes for the drawer: numbers set aside for it by the shop's machine, so that no device gives them out, then
 * printed. Needs network; what was set aside and not printed is only a gap in the series.
 */
import { useState } from 'react';
import { bagCode } from '../../domain/bag-code.ts';
import type { Problem } from '../../domain/problem.ts';
import { failed, ok, type Result } from '../../domain/result.ts';
import { Leaf } from '../sheet/leaf.tsx';
import { AWAY } from '../state/client.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { LABEL_FORMS } from './bag-acts.ts';
import { chanceId } from './other-job.ts';

const LENGTHS = [24, 48, 96, 192] as const;

interface Block {
  readonly from: number;
  readonly to: number;
}

export function NewRollLeaf({ onLeave }: { readonly onLeave: () => void }) {
  const { job, person } = useOpenJob();
  const [block, setBlock] = useState<Block | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [waits, setWaits] = useState(false);
  const take = async (count: number) => {
    setWaits(true);
    const got = await setRollAside(job.id, count, person);
    setWaits(false);
    setProblem(got.ok ? null : got.problem);
    if (got.ok) setBlock(got.value);
  };
  if (block !== null)
    return (
      <Leaf title={`${bagCode(block.from)} to ${bagCode(block.to)}`} onLeave={onLeave}>
        <p className="lede">
          These numbers are set aside. Print them at their own size; opened twice, they are the same.
        </p>
        <div className="choices">
          {LABEL_FORMS.map(([form, name]) => (
            <a key={form} className="key" href={rollHref(job.id, block, form)} target="_blank" rel="noreferrer">
              {name}
            </a>
          ))}
        </div>
      </Leaf>
    );
  return (
    <Leaf title="A new roll of codes: how many?" onLeave={onLeave}>
      <p className="lede">
        For bags that are filled where no network reaches. Nothing is said of them until one is used.
      </p>
      {problem !== null && (
        <p className="lede signal" role="alert">
          {problem.message} {problem.remedy}
        </p>
      )}
      <div className="choices">
        {LENGTHS.map((n) => (
          <button type="button" key={n} className="key" disabled={waits} onClick={() => void take(n)}>
            {n} codes
          </button>
        ))}
      </div>
    </Leaf>
  );
}

async function setRollAside(job: string, count: number, by: string): Promise<Result<Block>> {
  const body = JSON.stringify({ count, for: chanceId('roll'), roll: true, by });
  const init = { method: 'POST', headers: { 'content-type': 'application/json' }, body };
  const reply = await fetch(`/api/jobs/${encodeURIComponent(job)}/bags/set-aside`, init).catch(() => null);
  const said = (await reply?.json().catch(() => null)) as (Block & Partial<Problem>) | null | undefined;
  if (reply?.ok && said != null) return ok({ from: said.from, to: said.to });
  if (said?.code === undefined || said.message === undefined) return failed(AWAY);
  return failed({ code: said.code, message: said.message, remedy: said.remedy ?? '' });
}

function rollHref(job: string, { from, to }: Block, form: string): string {
  const q = new URLSearchParams({ what: 'roll', from: String(from), to: String(to), form });
  return `/api/jobs/${encodeURIComponent(job)}/labels.pdf?${q}`;
}
