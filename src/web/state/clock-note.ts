/**
 * How far this device's clock is from the shop's, noted in the journal when they meet: times are kept as the device wrote
 * them, and a reader can set them right. Also where else the shop can be reached, and which device the shop says this is.
 */
import { isFarOff, skewOf } from '../../app/sync/clock-skew.ts';
import type { EntryDraft } from '../../journal/entry.ts';
import type { State } from '../../journal/state.ts';
import { unseenDraft } from './acts.ts';
import { sayHello } from './client.ts';
import { dayKept, deviceId, keepDeviceId, personKept } from './keep.ts';
import { keepOtherAddresses } from './way.ts';

export async function noteClock(
  job: string,
  copy: () => State,
  record: (drafts: readonly EntryDraft[]) => Promise<void>,
): Promise<void> {
  const asked = Date.now();
  const hello = await sayHello();
  if (!hello.ok) return;
  const { device, time, addresses } = hello.value;
  if (device !== null && device.id !== deviceId()) keepDeviceId(device.id);
  keepOtherAddresses(addresses.tls);
  const skew = skewOf({ asked, answered: Date.now(), shop: Date.parse(time) });
  const state = copy();
  const person = personKept(job) ?? state.people.keys().next().value;
  if (device === null || person === undefined || skew === null) return;
  if (!isFarOff(skew, state.devices.get(device.id)?.clockAheadMs ?? 0)) return;
  const noted = { device: device.id, name: device.name, clockAheadMs: skew };
  const draft = unseenDraft('device-noted', noted, person, dayKept(job));
  if (draft.ok) await record([draft.value]);
}
