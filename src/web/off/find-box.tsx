/** What do you want off? One field over numbers, names and bags; the list shows what it is and where it sits. */
import { type RefObject, useMemo, useState } from 'react';
import { Button, ComboBox, Input, ListBox, ListBoxItem, Popover } from 'react-aria-components';
import { HandMark } from '../sheet/hand-mark.tsx';
import type { JobView } from '../state/job-view.ts';
import { searchParts } from '../words/search.ts';

export interface FindBoxProps {
  readonly job: JobView;
  readonly field: RefObject<HTMLInputElement | null>;
  readonly label: string;
  readonly placeholder: string;
  readonly onFind: (part: string) => void;
  readonly onLeave?: () => void;
  readonly autoFocus?: boolean;
}

export function FindBox({ job, field, label, placeholder, onFind, onLeave, autoFocus = false }: FindBoxProps) {
  const [text, setText] = useState('');
  const items = useMemo(() => searchParts(job.find, text), [job.find, text]);
  return (
    <ComboBox
      className="find"
      aria-label={label}
      items={items}
      inputValue={text}
      onInputChange={setText}
      defaultFilter={() => true}
      menuTrigger="focus"
      allowsEmptyCollection
      autoFocus={autoFocus}
      onSelectionChange={(key) => {
        if (key !== null) onFind(String(key));
      }}
      onKeyDown={(e) => {
        if (e.key === 'Escape' && text === '') onLeave?.();
      }}
    >
      <div className="field">
        <Input ref={field} placeholder={placeholder} />
        <Button className="key">Show</Button>
      </div>
      <Popover className="slip found" placement="bottom start" offset={4}>
        <ListBox
          renderEmptyState={() => (
            <div className="empty">Nothing here is called that. Try a number (10-03), a bag, or a shorter word.</div>
          )}
        >
          {(item: (typeof items)[number]) => <FoundItem key={item.id} job={job} item={item} />}
        </ListBox>
      </Popover>
    </ComboBox>
  );
}

function FoundItem({ job, item }: { readonly job: JobView; readonly item: ReturnType<typeof searchParts>[number] }) {
  const isOff = job.done.has(`remove:${item.id}`);
  const within = job.names.find(item.id)?.within;
  const where = [within === undefined ? null : `in the ${job.names.part(within)}`, isOff ? 'already off' : null].filter(
    (w) => w !== null,
  );
  return (
    <ListBoxItem id={item.id} textValue={item.name} className="item">
      <span>
        <HandMark hand={job.names.hand(item.id)} />
      </span>
      <span>{item.name}</span>
      <span className="id">{item.bag === null ? item.id : `${item.id} · ${item.bag}`}</span>
      {where.length > 0 && <small>{where.join(' · ')}</small>}
    </ListBoxItem>
  );
}
