/**
 * Whether a request is ours: asked under a name we expect (a page elsewhere could otherwise point its own name at us), and,
 * where a browser says from which page it comes, from our own page.
 */
import type { FastifyRequest } from 'fastify';
import type { Problem } from '../domain/problem.ts';
import { serverProblem } from './server-problems.ts';

/** `any` only for requests that were let in by a token of their own. */
export function originFault(
  request: FastifyRequest,
  names: readonly string[],
  expect: { readonly origin: string | readonly string[] },
): Problem | null {
  const host = request.headers.host ?? '';
  const name = host.replace(/:\d+$/, '').toLowerCase();
  const origin = request.headers.origin;
  const site = request.headers['sec-fetch-site'];
  const isAny = expect.origin === 'any';
  const fromOurs = origin === undefined || isAny || [expect.origin].flat().includes(origin);
  const elsewhere = request.method !== 'GET' && site !== undefined && site !== 'same-origin' && site !== 'none';
  if (names.includes(name) && fromOurs && (isAny || !elsewhere)) return null;
  return serverProblem(
    'OTHER_ORIGIN',
    `asked as "${host.slice(0, 80)}" from "${String(origin ?? site ?? 'nowhere').slice(0, 80)}"`,
  );
}
