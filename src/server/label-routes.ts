/**
 * Labels as PDF, and bag numbers set aside. A print changes nothing and may be asked for as often as wanted; only setting
 * numbers aside records. A PDF is shown in the browser (inline), from where it is printed.
 */
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type BagDesk, type BagSeries, LONE_SERIES, setBagsAside } from '../app/bag-series.ts';
import { ok } from '../domain/result.ts';
import { labelDocument } from '../records/labels/ask-labels.ts';
import type { FormWords } from '../records/labels/label-form.ts';
import type { Printer } from '../records/labels/print-document.ts';
import { typstPrinter } from '../store/index.ts';
import type { HostedJob } from './hosted-job.ts';
import { appendFrom } from './lan/note-device.ts';
import { replyProblem } from './problem-reply.ts';
import type { ServerParts } from './server-parts.ts';
import { serverProblem } from './server-problems.ts';

export interface LabelSetup {
  /** The series of the shop; by default that of a job alone. */
  readonly bags?: BagSeries;
  readonly printer?: Printer;
}

const aSetAside = z.strictObject({
  count: z.number(),
  for: z.string().min(1).max(120),
  roll: z.exactOptional(z.boolean()),
  by: z.exactOptional(z.string().min(1).max(120)),
  device: z.exactOptional(z.string().min(1).max(120)),
});
type SetAside = z.infer<typeof aSetAside>;

const asText = z.string().max(100_000);
const aLabelQuery = z.object({
  what: asText.default('bag'),
  ids: z.exactOptional(asText),
  form: asText.default('a4-24'),
  start: z.exactOptional(asText),
  from: z.exactOptional(asText),
  to: z.exactOptional(asText),
  page: z.exactOptional(asText),
  label: z.exactOptional(asText),
  grid: z.exactOptional(asText),
  margin: z.exactOptional(asText),
  gap: z.exactOptional(asText),
});

export function labelRoutes(app: FastifyInstance, parts: ServerParts, setup: LabelSetup): void {
  const printer = setup.printer ?? typstPrinter();
  const series = setup.bags ?? LONE_SERIES;

  app.post('/api/jobs/:job/bags/set-aside', async (request, reply) => {
    const job = parts.jobOf(request, reply);
    if (!job) return reply;
    const body = aSetAside.safeParse(request.body);
    if (!body.success) return replyProblem(reply, serverProblem('BODY_UNREADABLE', z.prettifyError(body.error)));
    const { count, roll } = body.data;
    const asked = { count, for: body.data.for, ...(roll !== undefined && { roll }) };
    const set = await setBagsAside(deskOf(request, parts, job, series, body.data), asked);
    return set.ok ? reply.code(201).send(set.value) : replyProblem(reply, set.problem);
  });

  app.get('/api/jobs/:job/labels.pdf', async (request, reply) => {
    const job = parts.jobOf(request, reply);
    if (!job) return reply;
    const query = aLabelQuery.safeParse(request.query);
    if (!query.success) return replyProblem(reply, serverProblem('BODY_UNREADABLE', z.prettifyError(query.error)));
    const { what, ids, start, from, to, ...form } = query.data;
    const asked = {
      what,
      ids: listOf(ids),
      madeAt: parts.clock.now(),
      ...(from !== undefined && { from }),
      ...(to !== undefined && { to }),
      ...(start !== undefined && { start: Number(start) }),
    };
    const document = labelDocument(job.state, asked, form as FormWords);
    if (!document.ok) return replyProblem(reply, document.problem);
    const pdf = await printer.pdf(document.value);
    if (!pdf.ok) return replyProblem(reply, pdf.problem);
    return reply
      .type('application/pdf')
      .header('content-disposition', `inline; filename="labels-${what.replace(/[^a-z-]/g, '')}.pdf"`)
      .header('cache-control', 'no-store')
      .send(Buffer.from(pdf.value));
  });
}

/** Ids with commas between; an id that itself has a comma is given in a JSON list. */
function listOf(text: string | undefined): readonly string[] {
  if (text === undefined || text.trim() === '') return [];
  if (text.startsWith('[')) {
    try {
      const list: unknown = JSON.parse(text);
      if (Array.isArray(list) && list.every((x) => typeof x === 'string')) return list;
    } catch {
      // Not a list after all: an id may begin with a bracket.
    }
  }
  return text
    .split(',')
    .map((id) => id.trim())
    .filter((id) => id !== '');
}

function deskOf(
  request: FastifyRequest,
  parts: ServerParts,
  job: HostedJob,
  series: BagSeries,
  asked: SetAside,
): BagDesk {
  return {
    series,
    look: async () => {
      const read = await job.refresh();
      if (!read.ok) return read;
      const others = [...parts.jobs.values()].filter((j) => j !== job).map((j) => j.state);
      return ok({ state: job.state, others });
    },
    record: (drafts, afterSeq) =>
      afterSeq === null ? appendFrom(request, parts, job, drafts) : job.append(drafts, afterSeq),
    stamp: () => ({
      id: parts.ids.next(),
      at: parts.clock.now(),
      by: asked.by ?? asked.for,
      device: request.paired?.id ?? asked.device ?? asked.for,
    }),
  };
}
