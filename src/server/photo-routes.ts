/**
 * Photographs in and out. The bytes come as the body itself; what they are is read from the content, not from a name.
 * A body goes to a file first and is read when its turn comes, two at a time, so that many phones at once do not fill
 * the memory. What goes out is never run by a browser: its own kind, no sniffing, a sandbox, originals as a download.
 */
import type { Readable } from 'node:stream';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { failed, type Result } from '../domain/result.ts';
import { PHOTO_SIZES, type PhotoInfo, type PhotoSize } from '../journal/ports.ts';
import { Gate, keepUpload, MOST_BYTES, uploadTooLarge, withoutMetadata } from '../store/index.ts';
import type { HostedJob } from './hosted-job.ts';
import { replyProblem } from './problem-reply.ts';
import type { ServerParts } from './server-parts.ts';
import { serverProblem } from './server-problems.ts';

/** Bodies in memory at once, in the whole program. */
const READING = new Gate(2);

const ENDINGS = { 'image/jpeg': 'jpg', 'image/png': 'png', 'image/webp': 'webp', 'image/avif': 'avif' } as const;

export function photoRoutes(app: FastifyInstance, parts: ServerParts): void {
  // In a room of its own, so that bodies arrive as streams here and as they were elsewhere.
  void app.register(async (room) => {
    room.removeAllContentTypeParsers();
    room.addContentTypeParser('*', (_request, body, done) => done(null, body));
    room.post('/api/jobs/:job/photos', (request, reply) => takePhoto(request, reply, parts));
  });

  app.get('/api/jobs/:job/photos/:hash/share', async (request, reply) => {
    const job = parts.jobOf(request, reply);
    if (!job) return reply;
    const { hash } = request.params as { readonly hash: string };
    if (!isHash(hash)) return notHere(reply, hash, 'share');
    const made = await READING.inTurn(async () => {
      const got = await job.source.photographs.get(hash, 'original');
      return got.ok ? withoutMetadata(got.value.bytes) : got;
    });
    if (!made.ok) return replyProblem(reply, made.problem);
    return harmless(reply, 'image/jpeg', `attachment; filename="photograph-${hash.slice(0, 12)}.jpg"`)
      .header('cache-control', 'private, no-store')
      .send(Buffer.from(made.value));
  });

  app.get('/api/jobs/:job/photos/:hash/:size', async (request, reply) => {
    const job = parts.jobOf(request, reply);
    if (!job) return reply;
    const { hash, size } = request.params as { readonly hash: string; readonly size: string };
    if (!isHash(hash) || !(PHOTO_SIZES as readonly string[]).includes(size)) return notHere(reply, hash, size);
    const got = await job.source.photographs.get(hash, size as PhotoSize);
    if (!got.ok) return replyProblem(reply, got.problem);
    const how = size === 'original' ? 'attachment' : 'inline';
    return harmless(reply, got.value.mime, `${how}; filename="${hash}.${ENDINGS[got.value.mime]}"`)
      .header('cache-control', 'private, max-age=31536000, immutable')
      .send(Buffer.from(got.value.bytes));
  });
}

async function takePhoto(request: FastifyRequest, reply: FastifyReply, parts: ServerParts): Promise<FastifyReply> {
  const job = parts.jobOf(request, reply);
  if (!job) return reply;
  if (Number(request.headers['content-length'] ?? 0) > MOST_BYTES)
    return replyProblem(reply.header('connection', 'close'), uploadTooLarge(MOST_BYTES));
  if (request.body === undefined || request.body === null)
    return replyProblem(
      reply,
      serverProblem('BODY_UNREADABLE', 'the photograph is sent as the body itself, with its image type'),
    );
  const taken = await takeBody(request.body as Readable, job);
  return taken.ok ? reply.code(201).send(taken.value) : replyProblem(reply, taken.problem);
}

async function takeBody(body: Readable, job: HostedJob): Promise<Result<PhotoInfo>> {
  const kept = await keepUpload(body, MOST_BYTES);
  if (!kept.ok) return failed(kept.problem);
  try {
    return await READING.inTurn(async () => job.source.photographs.put(await kept.value.read()));
  } finally {
    await kept.value.discard();
  }
}

const isHash = (text: string): boolean => /^[0-9a-f]{64}$/.test(text);

function notHere(reply: FastifyReply, hash: string, size: string): FastifyReply {
  return replyProblem(
    reply,
    serverProblem('PHOTO_NOT_HERE', `no photograph is kept as ${hash.slice(0, 12)} in the size ${size.slice(0, 12)}`),
  );
}

function harmless(reply: FastifyReply, mime: string, disposition: string): FastifyReply {
  return reply
    .type(mime)
    .header('x-content-type-options', 'nosniff')
    .header('content-security-policy', "default-src 'none'; sandbox")
    .header('content-disposition', disposition);
}
