/** The planner over HTTP: `/api/jobs/JOB/off?goal={"apart":"p1"}`, and so on, answered from the state as it is now. */
import type { FastifyInstance } from 'fastify';
import { readQuestion } from '../app/ask.ts';
import { replyProblem } from './problem-reply.ts';
import type { ServerParts } from './server-parts.ts';

export function planRoutes(app: FastifyInstance, parts: ServerParts): void {
  for (const kind of ['off', 'why-not', 'fits', 'tips']) {
    app.get(`/api/jobs/:job/${kind}`, async (request, reply) => {
      const job = parts.jobOf(request, reply);
      if (!job) return reply;
      const question = readQuestion(kind, request.query as Record<string, unknown>);
      if (!question.ok) return replyProblem(reply, question.problem);
      const gone = new AbortController();
      request.raw.on('close', () => gone.abort());
      const { rig, situation, marginPercent } = job.state;
      const answer = await parts.plans.plan({ rig, situation, question: question.value, marginPercent }, gone.signal);
      return answer.ok ? reply.send(answer.value.answer) : replyProblem(reply, answer.problem);
    });
  }
  app.get('/api/jobs/:job/rig', (request, reply) => {
    const job = parts.jobOf(request, reply);
    return job ? reply.send(job.state.rig) : reply;
  });
}
