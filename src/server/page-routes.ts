/** The built page and its files; any other address of the page gives the page itself, which finds its sheet. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';
import { replyProblem } from './problem-reply.ts';
import { serverProblem } from './server-problems.ts';

export async function pageRoutes(app: FastifyInstance, folder: string): Promise<void> {
  if (existsSync(join(folder, 'index.html'))) {
    await app.register(fastifyStatic, { root: folder, wildcard: false, cacheControl: false, setHeaders: cacheByName });
  }
  app.setNotFoundHandler((request, reply) => {
    const wantsPage =
      request.method === 'GET' && !request.url.startsWith('/api/') && !/\.[a-z0-9]+(\?|$)/.test(request.url);
    if (wantsPage && existsSync(join(folder, 'index.html'))) return reply.sendFile('index.html');
    return replyProblem(reply, serverProblem('NO_SUCH_PLACE', `there is nothing at ${request.url.slice(0, 120)}`));
  });
}

/** Files with a hash in their name never change; the page itself is asked for anew. */
function cacheByName(reply: { setHeader: (name: string, value: string) => void }, path: string): void {
  const lasting = /-[\w-]{8,}\.(js|css|woff2|svg|wasm)$/.test(path);
  reply.setHeader('cache-control', lasting ? 'public, max-age=31536000, immutable' : 'no-cache');
}
