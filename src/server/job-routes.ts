/**
 * Entries in and out. Entries leave as their exact stored text, a line each; they come in as device halves (text and
 * digest) and are admitted as facts. `follow` streams what is accepted, by anyone, as server-sent events whose id is
 * `seq`, so that a browser that was away asks for exactly what it missed.
 */
import { PassThrough } from 'node:stream';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import {
  dayOfJob,
  decide,
  type EntryDraft,
  readCommand,
  readDraft,
  type Stamp,
  type StoredEntry,
} from '../journal/index.ts';
import type { HostedJob } from './hosted-job.ts';
import { appendFrom } from './lan/note-device.ts';
import { replyProblem } from './problem-reply.ts';
import type { ServerParts } from './server-parts.ts';
import { serverProblem } from './server-problems.ts';

const PAGE = 20_000;
const QUIET_MS = 15_000;

const aDraftList = z
  .array(z.strictObject({ body: z.string().max(4_000_000), digest: z.string().length(64) }))
  .min(1)
  .max(5_000);
const aCommandBody = z.strictObject({
  command: z.unknown(),
  by: z.string().min(1).max(120),
  device: z.string().min(1).max(120),
});

export function jobRoutes(app: FastifyInstance, parts: ServerParts): void {
  app.get('/api/jobs', () => [...parts.jobs.values()].map(listed));

  app.get('/api/jobs/:job/entries', (request, reply) => {
    const job = parts.jobOf(request, reply);
    if (!job) return reply;
    const after = wholeQuery(request, 'after');
    const lines = job.after(after, PAGE).map((e) => `${JSON.stringify(e)}\n`);
    return reply
      .type('application/x-ndjson')
      .header('x-more', String(job.state.head.seq > after + PAGE))
      .send(lines.join(''));
  });

  app.post('/api/jobs/:job/entries', async (request, reply) => {
    const job = parts.jobOf(request, reply);
    if (!job) return reply;
    const body = aDraftList.safeParse(request.body);
    if (!body.success) return replyProblem(reply, serverProblem('BODY_UNREADABLE', z.prettifyError(body.error)));
    const drafts: EntryDraft[] = [];
    for (const sent of body.data) {
      const draft = readDraft(sent.body, sent.digest);
      if (!draft.ok) return replyProblem(reply, draft.problem);
      drafts.push(draft.value);
    }
    const accepted = await appendFrom(request, parts, job, drafts);
    return accepted.ok ? reply.code(201).send(accepted.value) : replyProblem(reply, accepted.problem);
  });

  app.post('/api/jobs/:job/commands', async (request, reply) => {
    const job = parts.jobOf(request, reply);
    if (!job) return reply;
    const body = aCommandBody.safeParse(request.body);
    if (!body.success) return replyProblem(reply, serverProblem('BODY_UNREADABLE', z.prettifyError(body.error)));
    const command = readCommand(body.data.command);
    if (!command.ok) return replyProblem(reply, command.problem);
    const device = request.paired?.id ?? body.data.device;
    const stamp: Stamp = { id: parts.ids.next(), at: parts.clock.now(), by: body.data.by, device };
    const drafts = decide(job.state, command.value, stamp);
    if (!drafts.ok) return replyProblem(reply, drafts.problem);
    const accepted = await appendFrom(request, parts, job, drafts.value);
    return accepted.ok ? reply.code(201).send(accepted.value) : replyProblem(reply, accepted.problem);
  });

  app.get('/api/jobs/:job/follow', (request, reply) => {
    const job = parts.jobOf(request, reply);
    return job ? follow(job, request, reply, parts) : reply;
  });
}

function listed(job: HostedJob): object {
  const opened = job.state.job;
  return {
    id: job.id,
    name: opened?.name ?? job.id,
    invented: opened?.invented ?? false,
    /** The day it stands on: two copies of one job are told apart by it. */
    day: dayOfJob(job.state).slice(0, 10),
    head: job.state.head,
  };
}

export function wholeQuery(request: FastifyRequest, key: string): number {
  const text = (request.query as Record<string, unknown>)[key];
  const n = Number(text ?? 0);
  return Number.isSafeInteger(n) && n >= 0 ? n : 0;
}

function event(entry: StoredEntry): string {
  return `id: ${entry.seq}\ndata: ${JSON.stringify(entry)}\n\n`;
}

/** What was missed since `last-event-id` (or `after`), then everything as it comes; a line of quiet keeps it open. */
function follow(job: HostedJob, request: FastifyRequest, reply: FastifyReply, parts: ServerParts): FastifyReply {
  const stream = new PassThrough();
  const last = Number(request.headers['last-event-id']);
  const since = Number.isSafeInteger(last) && last > 0 ? last : wholeQuery(request, 'after');
  stream.write(`retry: 1000\n\n${job.after(since, Number.MAX_SAFE_INTEGER).map(event).join('')}`);
  const stop = job.listen((entries) => void stream.write(entries.map(event).join('')));
  const quiet = setInterval(() => void stream.write(': quiet\n\n'), QUIET_MS);
  const end = (): void => {
    stop();
    clearInterval(quiet);
    parts.streams.delete(stream);
    stream.end();
  };
  parts.streams.add(stream);
  request.raw.on('close', end);
  stream.on('close', end);
  return reply
    .type('text/event-stream')
    .header('cache-control', 'no-store')
    .header('x-accel-buffering', 'no')
    .send(stream);
}
