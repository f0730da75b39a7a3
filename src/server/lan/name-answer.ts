/**
 * Answers for the shop's stable name on its network (multicast DNS, RFC 6762), so that `witnessmark.local` leads here on
 * phones without anything to set up. Only that: one name, its IPv4 addresses, and "no other kinds" (NSEC, section 6.1).
 * No probing for another machine of the same name (section 8.1): two shops on one network choose two names.
 * Names that do not end in .local are for the network's own name server.
 */
import { createSocket, type RemoteInfo } from 'node:dgram';
import type { LanAddress } from '../../store/index.ts';
import { isNear } from './near.ts';

const GROUP = '224.0.0.251';
const PORT = 5353;
const A = 1;
const AAAA = 28;
const ANY = 255;
const NSEC = 47;
const TTL_SECONDS = 120;
/** To a resolver that does not speak multicast, at most ten seconds (section 6.7). */
const LEGACY_TTL_SECONDS = 10;

interface Question {
  readonly name: string;
  readonly type: number;
}

/** Null: not a query, not for us, or not readable. `legacy`: asked from another port, so answered as plain DNS does. */
export function answerTo(query: Buffer, name: string, addresses: readonly string[], legacy: boolean): Buffer | null {
  const asked = readQuestions(query)?.find((q) => q.name === name && [A, AAAA, ANY].includes(q.type));
  if (asked === undefined || addresses.length === 0) return null;
  const wireName = writeName(name);
  const record = (type: number, data: Buffer): Buffer => {
    const head = Buffer.alloc(10);
    head.writeUInt16BE(type, 0);
    // Top bit: these are all there are, forget older ones (section 10.2); plain DNS does not know it.
    head.writeUInt16BE(legacy ? 1 : 0x8001, 2);
    head.writeUInt32BE(legacy ? LEGACY_TTL_SECONDS : TTL_SECONDS, 4);
    head.writeUInt16BE(data.length, 8);
    return Buffer.concat([wireName, head, data]);
  };
  const records = [
    ...addresses.map((a) => record(A, Buffer.from(a.split('.').map(Number)))),
    record(NSEC, Buffer.concat([wireName, Buffer.from([0, 1, 0x40])])),
  ];
  const header = Buffer.alloc(12);
  header.writeUInt16BE(legacy ? query.readUInt16BE(0) : 0, 0);
  header.writeUInt16BE(0x8400, 2);
  header.writeUInt16BE(legacy ? 1 : 0, 4);
  header.writeUInt16BE(records.length, 6);
  const question = legacy ? [wireName, Buffer.from([0, asked.type, 0, 1])] : [];
  return Buffer.concat([header, ...question, ...records]);
}

/** Starts answering; gives the way to stop. Where the port cannot be had, the addresses still lead here. */
export function answerForName(name: string, addresses: () => readonly LanAddress[]): () => void {
  if (!name.endsWith('.local')) return () => undefined;
  const socket = createSocket({ type: 'udp4', reuseAddr: true });
  let closed = false;
  const stop = (): void => {
    if (!closed) socket.close();
    closed = true;
  };
  const joined = new Set<string>();
  const join = (): void => {
    for (const { address } of addresses()) {
      if (closed || joined.has(address)) continue;
      joined.add(address);
      try {
        socket.addMembership(GROUP, address);
      } catch {
        // An interface without multicast: it is reached by its address.
      }
    }
  };
  socket.on('error', stop);
  socket.on('message', (query: Buffer, from: RemoteInfo) => {
    const own = addresses();
    if (!isNear(from.address, own)) return;
    const legacy = from.port !== PORT;
    const list = own.map((a) => a.address);
    const answer = answerTo(query, name, list, legacy);
    if (answer === null || closed) return;
    join();
    socket.send(answer, legacy ? from.port : PORT, legacy ? from.address : GROUP, () => undefined);
  });
  socket.bind(PORT, () => {
    socket.setMulticastTTL(255);
    join();
  });
  socket.unref();
  return stop;
}

function readQuestions(packet: Buffer): readonly Question[] | null {
  if (packet.length < 12 || (packet.readUInt16BE(2) & 0xf800) !== 0) return null;
  const questions: Question[] = [];
  let at = 12;
  for (let n = Math.min(packet.readUInt16BE(4), 20); n > 0; n -= 1) {
    const read = readName(packet, at);
    if (read === null || read.end + 4 > packet.length) return null;
    questions.push({ name: read.name, type: packet.readUInt16BE(read.end) });
    at = read.end + 4;
  }
  return questions;
}

/** Labels, with pointers to earlier ones (RFC 1035 4.1.4); a pointer only ever leads backwards, so it ends. */
function readName(packet: Buffer, from: number): { readonly name: string; readonly end: number } | null {
  const labels: string[] = [];
  let end: number | null = null;
  for (let at = from, bound = from; ; ) {
    const length = packet[at];
    if (length === undefined || labels.length > 40) return null;
    if (length === 0) return { name: labels.join('.').toLowerCase(), end: end ?? at + 1 };
    if (length >= 0xc0) {
      const to = ((length & 0x3f) << 8) | (packet[at + 1] ?? 0);
      end ??= at + 2;
      if (to >= bound) return null;
      at = bound = to;
      continue;
    }
    if (length > 63) return null;
    labels.push(packet.toString('latin1', at + 1, at + 1 + length));
    at += 1 + length;
  }
}

function writeName(name: string): Buffer {
  const labels = name.split('.').map((l) => Buffer.from(`${String.fromCharCode(l.length)}${l}`, 'latin1'));
  return Buffer.concat([...labels, Buffer.from([0])]);
}
