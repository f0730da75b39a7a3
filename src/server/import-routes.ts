/**
 * Taking in what others made, over HTTP: a ZIP of photographs, a parts list as CSV or XLSX. The file is the body itself;
 * what it is is read from the content. `preview=true` says what would happen and records nothing. What was kept on disk
 * for the length of the request goes away with it. One import at a time: the second waits.
 */
import type { Readable } from 'node:stream';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { lookThrough, takeInPile } from '../app/intake/take-in-pile.ts';
import { partsAnswer } from '../app/parts-table-answer.ts';
import { PARTS_COLUMNS } from '../app/parts-table-columns.ts';
import { partsDrafts, planParts } from '../app/parts-table-plan.ts';
import { csvRows } from '../app/parts-table-rows.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import type { Stamp } from '../journal/index.ts';
import {
  Gate,
  intakeProblem,
  keepUpload,
  lookAtPhoto,
  MOST_TABLE_BYTES,
  openPile,
  readTable,
  type UploadFile,
  uploadTooLarge,
} from '../store/index.ts';
import type { HostedJob } from './hosted-job.ts';
import { appendFrom } from './lan/note-device.ts';
import { replyProblem } from './problem-reply.ts';
import type { ServerParts } from './server-parts.ts';
import { serverProblem } from './server-problems.ts';

/** The form of ZIP that is read ends at 4 GB. */
const LARGEST_PILE = 4 * 1024 ** 3 - 1;
const IMPORTING = new Gate(1);

const yes = z.enum(['true', 'false']).default('false');
const common = {
  preview: yes,
  by: z.string().min(1).max(120).optional(),
  device: z.string().min(1).max(120).default('import'),
};
const aPhotoQuery = z.object({
  ...common,
  of: z.string().min(1).max(200).optional(),
  guess: z.enum(['names', 'none']).default('names'),
});

/** Our columns to theirs, as JSON: `{"id":"Nr","name":"Benennung"}`; an empty text means none. */
const aMap = z
  .string()
  .max(4_000)
  .transform((text, context): unknown => {
    try {
      return JSON.parse(text);
    } catch {
      context.addIssue('is not JSON');
      return z.NEVER;
    }
  })
  .pipe(z.partialRecord(z.enum(PARTS_COLUMNS), z.string().max(200)));
const aPartsQuery = z.object({ ...common, map: aMap.optional(), sheet: z.string().max(200).optional(), skip: yes });

export interface Asked {
  readonly request: FastifyRequest;
  readonly parts: ServerParts;
  readonly job: HostedJob;
  readonly by: string;
  readonly device: string;
}

export function importRoutes(app: FastifyInstance, parts: ServerParts): void {
  void app.register(async (room) => {
    room.removeAllContentTypeParsers();
    room.addContentTypeParser('*', (_request, body, done) => done(null, body));
    room.post('/api/jobs/:job/import/photos', (request, reply) =>
      answer(request, reply, parts, LARGEST_PILE, aPhotoQuery, (asked, query, upload) =>
        importPhotos(asked, query, upload),
      ),
    );
    room.post('/api/jobs/:job/import/parts', (request, reply) =>
      answer(request, reply, parts, MOST_TABLE_BYTES, aPartsQuery, (asked, query, upload) =>
        importParts(asked, query, upload),
      ),
    );
  });
}

type Query = z.ZodType<{
  readonly preview: 'true' | 'false';
  readonly by?: string | undefined;
  readonly device: string;
}>;

/** What both imports have in common: job, query, body to a file, one after another, the file gone afterwards. */
async function answer<Q extends Query>(
  request: FastifyRequest,
  reply: FastifyReply,
  parts: ServerParts,
  most: number,
  shape: Q,
  work: (asked: Asked, query: z.infer<Q>, upload: UploadFile) => Promise<Result<object>>,
): Promise<FastifyReply> {
  const job = parts.jobOf(request, reply);
  if (!job) return reply;
  const query = shape.safeParse(request.query);
  if (!query.success) return replyProblem(reply, serverProblem('BODY_UNREADABLE', z.prettifyError(query.error)));
  const { preview, by, device } = query.data;
  if (preview === 'false' && by === undefined)
    return replyProblem(reply, serverProblem('BODY_UNREADABLE', 'who takes it in is not said (`by`)', 'by'));
  if (Number(request.headers['content-length'] ?? 0) > most)
    return replyProblem(reply.header('connection', 'close'), uploadTooLarge(most));
  if (request.body === undefined || request.body === null)
    return replyProblem(reply, serverProblem('BODY_UNREADABLE', 'the file is sent as the body itself'));
  const upload = await keepUpload(request.body as Readable, most);
  if (!upload.ok) return replyProblem(reply, upload.problem);
  const asked: Asked = { request, parts, job, by: by ?? '', device: request.paired?.id ?? device };
  try {
    const done = await IMPORTING.inTurn(() => work(asked, query.data, upload.value));
    if (!done.ok) return replyProblem(reply, done.problem);
    return reply.code(preview === 'true' ? 200 : 201).send({ preview: preview === 'true', ...done.value });
  } finally {
    await upload.value.discard();
  }
}

export function stampOf(asked: Asked): Stamp {
  const { parts, by, device } = asked;
  return { id: parts.ids.next(), at: parts.clock.now(), by, device };
}

async function importPhotos(
  asked: Asked,
  query: z.infer<typeof aPhotoQuery>,
  upload: UploadFile,
): Promise<Result<object>> {
  const { job, request, parts } = asked;
  const pile = openPile(upload.path);
  if (!pile.ok) return failed(pile.problem);
  try {
    const of = query.of === undefined ? {} : { of: [query.of] };
    const looked = await lookThrough(pile.value, lookAtPhoto, job.state, { ...of, guess: query.guess });
    if (query.preview === 'true') return ok({ ...looked.plan, pile: 'ZIP', recorded: 0 });
    const done = await takeInPile(pile.value, looked, {
      photographs: job.source.photographs,
      append: (drafts) => appendFrom(request, parts, job, drafts),
      stamp: () => stampOf(asked),
      state: () => job.state,
    });
    return done.ok ? ok({ ...done.value, pile: 'ZIP' }) : done;
  } finally {
    pile.value.close();
  }
}

async function importParts(
  asked: Asked,
  query: z.infer<typeof aPartsQuery>,
  upload: UploadFile,
): Promise<Result<object>> {
  const { job, request, parts } = asked;
  const table = await readTable(await upload.read(), query.sheet);
  if (!table.ok) return table;
  const rows = table.value.rows === null ? csvRows(table.value.text ?? '') : ok(table.value.rows);
  if (!rows.ok) return rows;
  const plan = planParts(job.state, rows.value, query.map);
  if (query.preview === 'true') return ok(partsAnswer(plan, table.value, 0));
  if (query.sheet === undefined && table.value.sheets.length > 1)
    return failed(
      intakeProblem('SHEET_WHICH', `the workbook has the sheets ${table.value.sheets.join(', ')}`, 'sheet'),
    );
  const drafts = partsDrafts(job.state, plan, { skipRefused: query.skip === 'true', stamp: () => stampOf(asked) });
  if (!drafts.ok) return drafts;
  const accepted = drafts.value.length === 0 ? ok([]) : await appendFrom(request, parts, job, drafts.value);
  return accepted.ok ? ok(partsAnswer(plan, table.value, drafts.value.length)) : accepted;
}
