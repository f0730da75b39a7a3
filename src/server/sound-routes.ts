/**
 * Voice notes in and out. The bytes come as the body itself; what they are is read from the content. Going out, one
 * stretch of bytes can be asked for (RFC 9110 14): some browsers play no sound without it.
 */
import type { Readable } from 'node:stream';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { failed, type Result } from '../domain/result.ts';
import type { SoundInfo, Sounds } from '../journal/index.ts';
import { keepUpload, MOST_SOUND_BYTES, uploadTooLarge } from '../store/index.ts';
import { replyProblem } from './problem-reply.ts';
import type { ServerParts } from './server-parts.ts';
import { serverProblem } from './server-problems.ts';

export function soundRoutes(app: FastifyInstance, parts: ServerParts): void {
  void app.register(async (room) => {
    room.removeAllContentTypeParsers();
    room.addContentTypeParser('*', (_request, body, done) => done(null, body));
    room.post('/api/jobs/:job/sounds', async (request, reply) => {
      const sounds = soundsOf(request, reply, parts);
      if (sounds === null) return reply;
      if (Number(request.headers['content-length'] ?? 0) > MOST_SOUND_BYTES)
        return replyProblem(reply.header('connection', 'close'), uploadTooLarge(MOST_SOUND_BYTES));
      if (request.body === undefined || request.body === null)
        return replyProblem(reply, serverProblem('BODY_UNREADABLE', 'the sound is sent as the body itself'));
      const taken = await takeBody(request.body as Readable, sounds);
      return taken.ok ? reply.code(201).send(taken.value) : replyProblem(reply, taken.problem);
    });
  });

  app.get('/api/jobs/:job/sounds/:hash', async (request, reply) => {
    const sounds = soundsOf(request, reply, parts);
    if (sounds === null) return reply;
    const { hash } = request.params as { readonly hash: string };
    const got = await sounds.get(hash);
    if (!got.ok) return replyProblem(reply, got.problem);
    reply
      .type(got.value.mime)
      .header('cache-control', 'private, max-age=31536000, immutable')
      .header('content-security-policy', "default-src 'none'; sandbox")
      .header('accept-ranges', 'bytes');
    return sendStretch(request, reply, Buffer.from(got.value.bytes));
  });
}

function soundsOf(request: FastifyRequest, reply: FastifyReply, parts: ServerParts): Sounds | null {
  const job = parts.jobOf(request, reply);
  if (job === null) return null;
  if (job.source.sounds === undefined) replyProblem(reply, serverProblem('NO_SUCH_PLACE', 'no sounds are kept here'));
  return job.source.sounds ?? null;
}

async function takeBody(body: Readable, sounds: Sounds): Promise<Result<SoundInfo>> {
  const kept = await keepUpload(body, MOST_SOUND_BYTES);
  if (!kept.ok) return failed(kept.problem);
  try {
    return await sounds.put(await kept.value.read());
  } finally {
    await kept.value.discard();
  }
}

/** One stretch; anything else that is asked for is answered with the whole. */
function sendStretch(request: FastifyRequest, reply: FastifyReply, bytes: Buffer): FastifyReply {
  const hit = /^bytes=(\d+)-(\d*)$/.exec(request.headers.range ?? '');
  if (hit === null) return reply.send(bytes);
  const from = Number(hit[1]);
  const to = Math.min(hit[2] === '' ? bytes.length - 1 : Number(hit[2]), bytes.length - 1);
  if (from > to) return reply.code(416).header('content-range', `bytes */${bytes.length}`).send();
  return reply
    .code(206)
    .header('content-range', `bytes ${from}-${to}/${bytes.length}`)
    .send(bytes.subarray(from, to + 1));
}
