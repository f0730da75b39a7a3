/** The keys of What fits next. A trial fit must come out again: on such a row the second key says so. */
import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import type { FitsRow } from './fits-rows.ts';

export interface FitsKeysProps {
  readonly row: FitsRow | null;
  readonly isTrial: boolean;
  readonly onFitted: () => void;
  readonly onTrial: () => void;
  readonly onWhy: () => void;
  readonly onStopped: () => void;
  readonly onAsk: () => void;
}

export function FitsKeys({ row, isTrial, onFitted, onTrial, onWhy, onStopped, onAsk }: FitsKeysProps) {
  const trial = isTrial ? 'Out again' : 'Trial fit';
  const isNothing = row === null;
  return (
    <>
      <div className="acts">
        <button type="button" className="key go" disabled={isNothing} onClick={onFitted}>
          Fitted
        </button>
        <button type="button" className="key" disabled={isNothing} onClick={onTrial}>
          {trial}
        </button>
        <button type="button" className="key" onClick={onWhy}>
          Why not?
        </button>
        <button type="button" className="key" disabled={isNothing} onClick={onStopped}>
          Stopped here
        </button>
      </div>
      <div className="bottom">
        <button type="button" className="key" disabled={isNothing} onClick={onTrial}>
          {trial}
        </button>
        <button type="button" className="key go" disabled={isNothing} onClick={onFitted}>
          Fitted
        </button>
        <MenuTrigger>
          <Button className="key">More</Button>
          <Popover className="slip" placement="top end" offset={0}>
            <Menu
              aria-label="More"
              onAction={(key) => (key === 'why' ? onWhy() : key === 'stopped' ? onStopped() : onAsk())}
            >
              <MenuItem id="stopped" className="item" textValue="Stopped here">
                Stopped here<small>left half done; says how</small>
              </MenuItem>
              <MenuItem id="why" className="item" textValue="Why not?">
                Why not?<small>what this would do, or what stands in its way</small>
              </MenuItem>
              <MenuItem id="ask" className="item" textValue="Ask about another part">
                Ask about another part
              </MenuItem>
            </Menu>
          </Popover>
        </MenuTrigger>
      </div>
    </>
  );
}
