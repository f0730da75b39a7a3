/**
 * From unknown JSON to the shape of a rig: kinds of fields, ranges, unknown keys. What the ids refer to is checked
 * afterwards by `rig-check.ts`. Lists that are absent are empty.
 */
import { JsonReader, type Reader, say } from '../json-read.ts';
import type { Result } from '../result.ts';
import { RIG_PROBLEMS } from './rig-problems.ts';
import {
  ATTACHMENT_KINDS,
  type Attachment,
  type Block,
  type ExtraLoad,
  type Fact,
  type Figure,
  type Guard,
  type Hazard,
  LOSSES,
  type Look,
  type Need,
  type Operation,
  type Part,
  type Place,
  RIG_FORMAT,
  type Rig,
  type Setup,
  type SupportPoint,
} from './rig-types.ts';

const r = new JsonReader({ shape: 'RIG_SHAPE', unknownKey: 'RIG_UNKNOWN_KEY' }, RIG_PROBLEMS.RIG_SHAPE.remedy);
const DEEPEST_NEED = 100;

const id: Reader<string> = (v, where) => {
  const text = r.text(v, where);
  if (text === '' || /[:=]/.test(text)) {
    r.fail(
      `the id ${say(text)} ${text === '' ? 'is empty' : 'holds ":" or "="'}`,
      where,
      'RIG_ID',
      RIG_PROBLEMS.RIG_ID.remedy,
    );
  }
  return text;
};

const need: Reader<Need> = (v, where) => needAt(v, where, 0);

function needAt(v: unknown, where: string, depth: number): Need {
  if (depth > DEEPEST_NEED) r.fail(`a need nested deeper than ${DEEPEST_NEED}`, where);
  const from = r.plain(v, where);
  const keys = Object.keys(from);
  const key = keys[0] ?? '';
  const inner = `${where}.${key}`;
  if (key === 'setup' || (key === 'in' && keys.length === 2)) {
    return r.object<{ setup: string; in: readonly string[] }>({ setup: r.text, in: r.list(r.text) }, ['setup', 'in'])(
      v,
      where,
    );
  }
  if (keys.length !== 1)
    r.fail(
      `a need has exactly one of all, any, released, off, apart, done, fact, setup; here are ${keys.length}`,
      where,
    );
  const value = from[key];
  switch (key) {
    case 'all':
      return { all: r.list((x, w) => needAt(x, w, depth + 1))(value, inner) };
    case 'any':
      return { any: r.list((x, w) => needAt(x, w, depth + 1))(value, inner) };
    case 'released':
      return { released: r.text(value, inner) };
    case 'off':
      return { off: r.text(value, inner) };
    case 'apart':
      return { apart: r.text(value, inner) };
    case 'done':
      return { done: r.text(value, inner) };
    case 'fact':
      return { fact: r.text(value, inner) };
    default:
      return r.fail(
        `"${key.slice(0, 40)}" is no kind of need`,
        inner,
        'RIG_UNKNOWN_KEY',
        RIG_PROBLEMS.RIG_UNKNOWN_KEY.remedy,
      );
  }
}

const doubtful = r.object<{ value: number; plusMinus: number }>({ value: r.number, plusMinus: r.number }, [
  'value',
  'plusMinus',
]);

const figure: Reader<Figure> = (v, where) => {
  if (typeof v !== 'object') return r.number(v, where);
  const read = doubtful(v, where);
  if (read.plusMinus < 0) r.fail(`a doubt of ${read.plusMinus} is negative`, `${where}.plusMinus`);
  return read;
};

const mass: Reader<Figure> = (v, where) => {
  const m = figure(v, where);
  if ((typeof m === 'number' ? m : m.value) < 0) r.fail(`${say(v)} kg is negative`, where);
  return m;
};

const positive: Reader<number> = (v, where) => {
  const n = r.number(v, where);
  return n > 0 ? n : r.fail(`${n} stands where a positive number is wanted`, where);
};

const people: Reader<number> = (v, where) => {
  const n = r.number(v, where);
  return Number.isSafeInteger(n) && n > 0 ? n : r.fail(`${n} people: a whole number from 1 is wanted`, where);
};

const place = r.object<Place>({ x: figure, y: figure, z: figure }, []);
const free: Reader<Readonly<Record<string, unknown>>> = (v, where) => r.plain(v, where);
const hand = r.oneOf(['L', 'R', 'C'] as const);
const hazard = r.object<Hazard>({ kind: r.text, clearedBy: need, note: r.text }, ['kind']);

const part = r.object<Part>(
  {
    id,
    name: r.text,
    within: r.text,
    hand,
    minutes: r.wholeMinutes,
    massKg: mass,
    at: place,
    needs: need,
    hold: need,
    note: r.text,
    source: r.text,
  },
  ['id'],
);

const attachment = r.object<Attachment>(
  {
    id,
    name: r.text,
    joins: r.list(r.text),
    kind: r.oneOf(ATTACHMENT_KINDS),
    minutes: r.wholeMinutes,
    needs: need,
    refit: need,
    loss: r.oneOf(LOSSES),
    disturbs: r.list(r.text),
    hazards: r.list(hazard),
    asFound: free,
    asDecided: free,
    threadHand: r.oneOf(['left', 'right'] as const),
    note: r.text,
    source: r.text,
  },
  ['id', 'joins'],
);

const operation = r.object<Operation>(
  {
    id,
    name: r.text,
    on: r.text,
    minutes: r.wholeMinutes,
    needs: need,
    only: r.oneOf(['strip', 'refit'] as const),
    hazards: r.list(hazard),
    note: r.text,
    source: r.text,
  },
  ['id'],
);

const block = r.object<Block>({ part: r.text, by: r.text, unless: need, harm: r.text, source: r.text }, ['part', 'by']);
const guard = r.object<Guard>({ notTogether: r.list(r.text), unless: need, harm: r.text, source: r.text }, [
  'notTogether',
]);
const point = r.object<SupportPoint>(
  { id: r.text, name: r.text, on: r.text, through: r.list(r.text), at: place, limitKg: positive },
  ['on'],
);
const load = r.object<ExtraLoad>({ name: r.text, massKg: mass, at: place }, ['massKg']);

const minutesTable: Reader<number | Readonly<Record<string, number>>> = (v, where) =>
  typeof v === 'number' ? r.wholeMinutes(v, where) : r.table(r.wholeMinutes)(v, where);

const setup = r.object<Setup>(
  {
    id,
    name: r.text,
    states: r.list(r.text),
    initial: r.text,
    minutes: minutesTable,
    points: r.table(r.list(point)),
    loads: r.table(r.list(load)),
    changeNeeds: r.table(need),
    note: r.text,
    source: r.text,
  },
  ['id', 'states', 'initial'],
);

const fact = r.object<Fact>({ id, name: r.text, given: r.flag, note: r.text, source: r.text }, ['id']);
const look = r.object<Look>(
  { id, name: r.text, on: r.text, visible: need, whenFitted: r.list(r.text), people, note: r.text, source: r.text },
  ['id'],
);

const format: Reader<typeof RIG_FORMAT> = (v, where) =>
  v === RIG_FORMAT
    ? RIG_FORMAT
    : r.fail(`the format is ${say(v)}, not "${RIG_FORMAT}"`, where, 'RIG_FORMAT', RIG_PROBLEMS.RIG_FORMAT.remedy);

const rigShape = r.object<Rig>(
  {
    format,
    name: r.text,
    invented: r.flag,
    root: id,
    parts: r.list(part),
    attachments: r.list(attachment),
    operations: r.list(operation),
    blocks: r.list(block),
    guards: r.list(guard),
    setups: r.list(setup),
    facts: r.list(fact),
    looks: r.list(look),
  },
  ['format', 'root'],
);

const EMPTY = { parts: [], attachments: [], operations: [], blocks: [], guards: [], setups: [], facts: [], looks: [] };

/** Shape only; `readRig` of `rig-check.ts` also checks what the ids refer to. */
export function readRigShape(value: unknown): Result<Rig> {
  return r.reading(() => {
    const from = r.plain(value, '');
    format(from.format, 'format');
    return { ...EMPTY, ...rigShape(from, '') };
  });
}

export function readNeed(value: unknown, where: string): Result<Need> {
  return r.reading(() => need(value, where));
}
