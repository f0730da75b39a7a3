/** A screen inside an eager provider draws before the job is read: the view of an empty state must hold. */
import { expect, test } from 'vitest';
import { EMPTY_STATE } from '../../journal/make-state.ts';
import { viewOf } from './view-of.ts';

test('the view of a job that is not read yet has nothing in it and does not fail', () => {
  const view = viewOf('qx-ola', EMPTY_STATE, 'nobody', 'web-1');
  expect(view.id).toBe('qx-ola');
  expect(view.people).toEqual([]);
  expect(view.find.length).toBe(view.rig.parts.length);
});
