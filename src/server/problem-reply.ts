/** A Problem as HTTP: `application/problem+json` (RFC 9457) with our `code`, `message`, `remedy`, `where` as members. */
import type { FastifyReply } from 'fastify';
import type { Problem } from '../domain/problem.ts';

const STATUS: Readonly<Record<string, number>> = {
  NO_SUCH_JOB: 404,
  NO_SUCH_PLACE: 404,
  PHOTO_NOT_HERE: 404,
  PHOTO_NOT_FOUND: 404,
  SOUND_NOT_FOUND: 404,
  OTHER_ORIGIN: 403,
  TOO_MUCH: 413,
  UPLOAD_TOO_LARGE: 413,
  NOT_PAIRED: 401,
  DEVICE_REVOKED: 401,
  PAIRING_TOO_OFTEN: 429,
  PAIRING_CODE_UNKNOWN: 403,
  DEVICE_NOT_FOUND: 404,
  LAN_CLOSED: 409,
  JOURNAL_NEWER: 409,
  JOURNAL_MOVED: 409,
  ENTRY_ID_TAKEN: 409,
  DISK_FULL: 507,
};

export function replyProblem(reply: FastifyReply, p: Problem): FastifyReply {
  const status = STATUS[p.code] ?? 422;
  const body = { type: `urn:witnessmark:${p.code}`, title: p.message, status, detail: p.remedy, ...p };
  return reply.code(status).type('application/problem+json').send(JSON.stringify(body));
}
