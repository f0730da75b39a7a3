/** The keys: one tap for what happens fifty times a day, undo always in sight, the rest one tap further. */
import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { useOpenJob } from '../state/use-job.tsx';
import { hourOf } from '../words/figures.ts';
import type { OffView } from './off-screen.tsx';

const OTHERS = [
  { id: 'first', name: 'Came off first', more: 'something else had to come off before this' },
  { id: 'anyway', name: 'It came off anyway', more: 'done, though the plan did not have it yet' },
  { id: 'nothing', name: 'Nothing here', more: 'looked: none is fitted' },
  { id: 'damage', name: 'Our damage', more: 'we hurt something; an honest entry of its own' },
  { id: 'fact', name: 'Settle a fact', more: 'something only a person can settle' },
] as const;

export function OffKeys({ view }: { readonly view: OffView }) {
  const { row, acts } = view;
  const isStep = row?.kind === 'step';
  return (
    <>
      <Recorded />
      <div className="acts">
        <button type="button" className="key go" disabled={row === null || row.kind === 'done'} onClick={acts.didIt}>
          {goWord(view)}
        </button>
        <OtherKey view={view} />
        <button type="button" className="key sig" disabled={!isStep} onClick={acts.stuck}>
          Stuck
        </button>
        <button type="button" className="key" disabled={row === null} onClick={acts.stopped}>
          Stopped here
        </button>
      </div>
    </>
  );
}

export function goWord({ row }: OffView): string {
  if (row?.kind === 'step' && !row.open) return 'Why not yet?';
  if (row?.kind === 'gate') return 'What clears it';
  return 'Did it';
}

/** What you recorded last, with undo; and what somebody else did since, if anything. */
export function Recorded() {
  const { job, undo, fromOthers } = useOpenJob();
  const { last } = job;
  return (
    <div className="recorded">
      <div className="both">
        {last === null ? (
          <span>Nothing recorded by you yet.</span>
        ) : (
          <span role="status">
            {hourOf(last.at)} · <b>{last.words}</b>
            {last.pending ? ' · saved here' : ''}
          </span>
        )}
        {fromOthers !== null && <span className="others">{fromOthers}</span>}
      </div>
      <button type="button" className="link" disabled={last === null} onClick={undo}>
        Undo
      </button>
    </div>
  );
}

function OtherKey({ view }: { readonly view: OffView }) {
  return (
    <MenuTrigger>
      <Button className="key">Something else</Button>
      <Popover className="slip" placement="top start" offset={6}>
        <Menu aria-label="Something else happened" onAction={(key) => act(view, String(key))}>
          {OTHERS.map((o) => (
            <MenuItem key={o.id} id={o.id} textValue={o.name} className="item">
              {o.name}
              <small>{o.more}</small>
            </MenuItem>
          ))}
          <MenuItem id="why-not" textValue="Why not?" className="item">
            Why not?<small>what stands in the way of this step</small>
          </MenuItem>
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}

function act(view: OffView, key: string): void {
  if (key === 'why-not') view.acts.whyNot();
  else if (key === 'stopped') view.acts.stopped();
  else if (key === 'stuck') view.acts.stuck();
  const other = OTHERS.find((o) => o.id === key);
  if (other) view.acts.other(other.id);
}

export function PhoneKeys({ view }: { readonly view: OffView }) {
  const { row, acts } = view;
  return (
    <div className="bottom">
      <button type="button" className="key sig" disabled={row?.kind !== 'step'} onClick={acts.stuck}>
        Stuck
      </button>
      <button type="button" className="key go" disabled={row === null || row.kind === 'done'} onClick={acts.didIt}>
        {goWord(view)}
      </button>
      <MenuTrigger>
        <Button className="key">More</Button>
        <Popover className="slip" placement="top end" offset={0}>
          <Menu aria-label="More" onAction={(key) => act(view, String(key))}>
            <MenuItem id="stopped" className="item" textValue="Stopped here">
              Stopped here<small>left half done; says how</small>
            </MenuItem>
            <MenuItem id="why-not" className="item" textValue="Why not?">
              Why not?<small>what stands in the way of this step</small>
            </MenuItem>
            {OTHERS.map((o) => (
              <MenuItem key={o.id} id={o.id} textValue={o.name} className="item">
                {o.name}
                <small>{o.more}</small>
              </MenuItem>
            ))}
          </Menu>
        </Popover>
      </MenuTrigger>
    </div>
  );
}
