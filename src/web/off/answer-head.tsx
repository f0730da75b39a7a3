/** What is wanted off, and the answer in figures large enough to read with the hands full. */
import type { RefObject } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { recording } from '../../journal/commands.ts';
import { HandMark } from '../sheet/hand-mark.tsx';
import { useOpenJob } from '../state/use-job.tsx';
import { clock, clockWords, count, hourOf } from '../words/figures.ts';
import { firstName } from '../words/names.ts';
import { FindBox } from './find-box.tsx';
import type { OffView } from './off-screen.tsx';

export interface AnswerHeadProps {
  readonly view: OffView;
  readonly finding: boolean;
  readonly onFinding: (finding: boolean) => void;
  readonly field: RefObject<HTMLInputElement | null>;
}

export function AnswerHead({ view, finding, onFinding, field }: AnswerHeadProps) {
  const { job } = useOpenJob();
  const { goalPart, way } = view;
  const bag = job.find.find((f) => f.id === goalPart)?.bag;
  if (goalPart === null || finding) {
    return (
      <div className="wanted">
        <div className="eyebrow">I want off</div>
        <h1 className={goalPart === null ? undefined : 'out-of-sight'}>
          {goalPart === null ? 'What do you want off?' : job.names.part(goalPart)}
        </h1>
        <FindBox
          job={job}
          field={field}
          label="Find what you want off"
          placeholder="number, name or bag"
          onFind={view.choose}
          onLeave={() => onFinding(false)}
          autoFocus={finding}
        />
      </div>
    );
  }
  return (
    <div className="wanted">
      <div className="lead-line">
        <div className="eyebrow">I want off</div>
        <ToggleButtonGroup
          className="way"
          aria-label="How far"
          selectionMode="single"
          disallowEmptySelection
          selectedKeys={[way]}
          onSelectionChange={(keys) => view.choose(goalPart, keys.has('off') ? 'off' : 'apart')}
        >
          <ToggleButton id="apart">by itself</ToggleButton>
          <ToggleButton id="off">off the aircraft</ToggleButton>
        </ToggleButtonGroup>
      </div>
      <h1>
        <button
          type="button"
          className="pick"
          onClick={view.acts.find}
          aria-label={`${job.names.part(goalPart)}. Want something else off`}
        >
          <span>
            {job.names.part(goalPart)} <HandMark hand={job.names.hand(goalPart)} />
          </span>
        </button>
        <span className="id">{bag == null ? goalPart : `${goalPart} · ${bag}`}</span>
      </h1>
      <Answer view={view} />
      <Stops />
    </div>
  );
}

function Answer({ view }: { readonly view: OffView }) {
  const { plan, answer, change } = view;
  const { job } = useOpenJob();
  if (plan.problem !== null) {
    return (
      <div className="answer" role="status">
        <div className="big signal">no way</div>
        <div className="no-way">
          <b>{plan.problem.message}</b> {plan.problem.remedy}
        </div>
      </div>
    );
  }
  if (answer === null) return <Looking view={view} />;
  const steps = answer.steps.filter((s) => s.action.startsWith('set:') || !job.done.has(s.action));
  if (steps.length === 0) {
    return (
      <div className="answer" role="status">
        <div className="big">off</div>
        <div className="proof">
          <b>It is off.</b> Nothing is left to undo.
        </div>
      </div>
    );
  }
  const minutes = steps.reduce((sum, s) => sum + s.minutes, 0);
  return (
    <>
      <div className="answer">
        <div className="big">
          {steps.length}
          <small>{steps.length === 1 ? 'step' : 'steps'}</small>
        </div>
        <div className="big">
          <span className="out-of-sight">{clockWords(minutes)}</span>
          <span aria-hidden="true">
            {clock(minutes)}
            <small>h</small>
          </span>
        </div>
        <div className="proof">{plan.working ? <Working view={view} /> : <Proof view={view} />}</div>
      </div>
      {change !== null && (
        <p className="note-line" role="status">
          <ChangeMark />
          {change.words}
        </p>
      )}
    </>
  );
}

function Proof({ view }: { readonly view: OffView }) {
  const { answer } = view;
  if (answer === null) return null;
  const losses = [
    answer.irreversible > 0 ? `${count(answer.irreversible, 'step')} cannot be put back as it was` : null,
    answer.disturbed > 0 ? `${count(answer.disturbed, 'setting')} to be set again` : null,
  ].filter((l) => l !== null);
  const next = answer.nextWays[0];
  return (
    <>
      <span>
        {answer.proven ? (
          <>
            <b>the least there is</b>, proved
          </>
        ) : (
          <>
            <b>not yet proved the least</b>: between {clock(answer.lowerBound)} and {clock(answer.cost)} h
          </>
        )}
      </span>
      {losses.map((l) => (
        <span key={l}>{l}</span>
      ))}
      {next === undefined ? (
        <span>there is no other way</span>
      ) : (
        <span>
          <button type="button" className="link" onClick={view.acts.ways}>
            {count(answer.nextWays.length, 'other way')}, from {clock(next.cost)} h
          </button>
        </span>
      )}
    </>
  );
}

function Looking({ view }: { readonly view: OffView }) {
  return (
    <div className="answer looking">
      <div className="big quiet" aria-hidden="true">
        …
      </div>
      <div className="proof">
        <Working view={view} />
      </div>
    </div>
  );
}

function Working({ view }: { readonly view: OffView }) {
  const { plan } = view;
  if (plan.stopped)
    return (
      <>
        <b>Stopped looking.</b>
        <br />
        <button type="button" className="link" onClick={plan.again}>
          Look again
        </button>
      </>
    );
  return (
    <span role="status">
      {plan.reply === null ? 'looking for the least there is' : 'looking again'}
      {plan.progress !== null && (
        <>
          : at least {clock(plan.progress.lower)} h
          {plan.progress.upper === null ? '' : `, at most ${clock(plan.progress.upper)} h`}
        </>
      )}
      {plan.seconds >= 1 && (
        <>
          , {count(plan.seconds, 'second')}
          <br />
          <button type="button" className="link" onClick={plan.stop}>
            Stop looking
          </button>
        </>
      )}
    </span>
  );
}

export function ChangeMark() {
  return (
    <span className="rev" aria-hidden="true">
      <svg viewBox="0 0 20 17" aria-hidden="true">
        <path d="M10 1.5 18.5 16h-17Z" />
      </svg>
    </span>
  );
}

/** What was left half done stands on top, on every sheet, until somebody clears it. */
export function Stops() {
  const { job, record } = useOpenJob();
  return (
    <>
      {job.stops.map((s) => (
        <p className="note-line sig" key={s.entry}>
          <span className="chip">Open</span>
          {s.state} {firstName(s.by)} stopped here {hourOf(s.at)}.{' '}
          <button type="button" className="link" onClick={() => record(recording('stop-cleared', { stop: s.entry }))}>
            No longer so
          </button>
        </p>
      ))}
    </>
  );
}
