/**
 * Stuck: saved before the leaf is there. Then the gentle methods in order, each recorded as tried, and no figure of force
 * anywhere: what does not come is still held. Order of the ladder: common practice, no source.
 */
import { recording } from '../../journal/commands.ts';
import { Leaf } from '../sheet/leaf.tsx';
import type { CatchView } from './use-catch.ts';

export const LADDER: readonly { readonly method: string; readonly more: string }[] = [
  { method: 'look for a hidden keeper', more: 'pin, grub screw, peening, a key, sealing that glues' },
  { method: 'soak, and wait', more: 'overnight is cheap; mind rubber, fabric and paint' },
  { method: 'warmth', more: 'where the metal and the heat treatment allow; no flame near fuel, dope or magnesium' },
  { method: 'vibration', more: 'light and many, never one heavy blow' },
  { method: 'pull along the axis', more: 'puller square to it, nothing levered against the structure' },
  { method: 'ask the lead', more: 'before anything that cannot be taken back' },
];

interface StuckLeafProps {
  readonly view: CatchView;
  readonly subject: string;
  /** Saved as stuck on a part; otherwise as stopped here, since no part is named. */
  readonly saved: boolean;
  readonly onLeave: () => void;
}

export function StuckLeaf({ view, subject, saved, onLeave }: StuckLeafProps) {
  const { open, acts } = view;
  const { state } = open.snapshot;
  const entry = saved
    ? (state.stuck.get(subject) ?? state.stuck.get(`remove:${subject}`))?.at(-1)?.said.entry
    : undefined;
  const tried = entry === undefined ? [] : (state.tried.get(entry) ?? []);
  const name = subject === 'job' ? 'It' : open.job.names.part(subject);
  const say = (method: string, helped: 'yes' | 'no' | 'not-yet-known') => {
    if (entry === undefined) return;
    acts.record(`Tried: ${method}`, recording('tried', { stuck: entry, method, helped }));
  };
  return (
    <Leaf title="Stop. Do not force it." onLeave={onLeave}>
      <p className="lede">
        {name} is recorded as stuck. Something is still holding, or in the way. It may be under load: keep out of its
        way, and let the maker’s data and licensed people decide.
      </p>
      <h3>Then, gently, in this order</h3>
      <ol className="ladder">
        {LADDER.map((step, i) => {
          const last = tried.findLast((t) => t.method === step.method);
          return (
            <li key={step.method}>
              <span className="n">{i + 1}</span>
              <span>
                <b>{step.method}</b>
                <small>{step.more}</small>
              </span>
              {entry !== undefined &&
                (last === undefined ? (
                  <button type="button" className="key" onClick={() => say(step.method, 'not-yet-known')}>
                    Tried
                  </button>
                ) : last.helped === 'not-yet-known' ? (
                  <span className="two-keys">
                    <button type="button" className="key" onClick={() => say(step.method, 'no')}>
                      No help
                    </button>
                    <button type="button" className="key" onClick={() => say(step.method, 'yes')}>
                      Helped
                    </button>
                  </span>
                ) : (
                  <span className="tried-word">{last.helped === 'yes' ? 'helped' : 'no help'}</span>
                ))}
            </li>
          );
        })}
      </ol>
      {entry === undefined && (
        <p className="lede quiet">Name the part of it, and what was tried can be kept with it.</p>
      )}
      <div className="keys-line across">
        {entry === undefined ? (
          <button type="button" className="key" onClick={() => view.ask({ kind: 'place' })}>
            Name the part
          </button>
        ) : (
          <button
            type="button"
            className="key"
            onClick={() => {
              acts.record('It came free', recording('freed', { stuck: entry }));
              onLeave();
            }}
          >
            It came free
          </button>
        )}
        <button type="button" className="key go" onClick={onLeave}>
          Leave it for now
        </button>
      </div>
    </Leaf>
  );
}
