/** Photographs in and out. The bytes come as the body itself; what they are is read from the content, not from a name. */
import type { FastifyInstance } from 'fastify';
import { PHOTO_SIZES, type PhotoSize } from '../journal/ports.ts';
import { replyProblem } from './problem-reply.ts';
import type { ServerParts } from './server-parts.ts';
import { serverProblem } from './server-problems.ts';

const LARGEST_PHOTO = 60 * 1024 * 1024;

export function photoRoutes(app: FastifyInstance, parts: ServerParts): void {
  app.addContentTypeParser(
    /^(image\/|application\/octet-stream)/,
    { parseAs: 'buffer', bodyLimit: LARGEST_PHOTO },
    (_request, body, done) => done(null, body),
  );

  app.post('/api/jobs/:job/photos', { bodyLimit: LARGEST_PHOTO }, async (request, reply) => {
    const job = parts.jobOf(request, reply);
    if (!job) return reply;
    if (!Buffer.isBuffer(request.body))
      return replyProblem(
        reply,
        serverProblem('BODY_UNREADABLE', 'the photograph is sent as the body itself, with its image type'),
      );
    const taken = await job.source.photographs.put(request.body);
    return taken.ok ? reply.code(201).send(taken.value) : replyProblem(reply, taken.problem);
  });

  app.get('/api/jobs/:job/photos/:hash/:size', async (request, reply) => {
    const job = parts.jobOf(request, reply);
    if (!job) return reply;
    const { hash, size } = request.params as { readonly hash: string; readonly size: string };
    if (!/^[0-9a-f]{64}$/.test(hash) || !(PHOTO_SIZES as readonly string[]).includes(size)) {
      return replyProblem(
        reply,
        serverProblem(
          'PHOTO_NOT_HERE',
          `no photograph is kept as ${hash.slice(0, 12)} in the size ${size.slice(0, 12)}`,
        ),
      );
    }
    const got = await job.source.photographs.get(hash, size as PhotoSize);
    if (!got.ok) return replyProblem(reply, got.problem);
    return reply
      .type(got.value.mime)
      .header('cache-control', 'private, max-age=31536000, immutable')
      .send(Buffer.from(got.value.bytes));
  });
}
