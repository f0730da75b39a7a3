import * as fs from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { draftOf } from '../journal/testing/recorder.ts';
import { openJob } from './job-folder.ts';
import { exportJsonLines, fromJsonLines, importJsonLines, toJsonLines } from './json-lines.ts';
import { noteJob, tempFolder } from './testing/temp.ts';

async function exported(entries: number): Promise<{ top: string; file: string }> {
  const top = tempFolder();
  (await noteJob(join(top, 'a.job'), entries)).close();
  const file = join(top, 'a.jsonl');
  expect(must(await exportJsonLines(join(top, 'a.job'), file))).toEqual({ entries });
  return { top, file };
}

describe('JSON Lines', () => {
  it('carries the exact bytes, the chain and all', async () => {
    const { top, file } = await exported(4);
    expect(must(await importJsonLines(file, join(top, 'b.job')))).toEqual({ added: 4, already: 0, sameChain: true });
    const [a, b] = [must(openJob(join(top, 'a.job'))), must(openJob(join(top, 'b.job')))];
    expect(must(await b.journal.read(1))).toEqual(must(await a.journal.read(1)));
    a.close();
    b.close();
  });

  it('importing twice does not double', async () => {
    const { top, file } = await exported(4);
    must(await importJsonLines(file, join(top, 'b.job')));
    expect(must(await importJsonLines(file, join(top, 'b.job')))).toEqual({ added: 0, already: 4, sameChain: true });
  });

  it('continues a journal that is behind, and leaves one that is ahead', async () => {
    const { top, file } = await exported(6);
    const lines = fs.readFileSync(file, 'utf8').split('\n');
    fs.writeFileSync(join(top, 'first.jsonl'), lines.slice(0, 4).join('\n'));
    must(await importJsonLines(join(top, 'first.jsonl'), join(top, 'b.job')));
    expect(must(await importJsonLines(file, join(top, 'b.job')))).toEqual({ added: 3, already: 3, sameChain: true });
    expect(must(await importJsonLines(join(top, 'first.jsonl'), join(top, 'b.job')))).toEqual({
      added: 0,
      already: 3,
      sameChain: true,
    });
  });

  it('where both went on separately, what is new is accepted at the end with its own bytes', async () => {
    const { top, file } = await exported(3);
    must(await importJsonLines(file, join(top, 'b.job')));
    for (const [name, n] of [
      ['a.job', 50],
      ['b.job', 60],
    ] as const) {
      const job = must(openJob(join(top, name)));
      must(await job.journal.append(null, [draftOf(n, 'note', { text: name })]));
      job.close();
    }
    must(await exportJsonLines(join(top, 'a.job'), join(top, 'a2.jsonl')));
    expect(must(await importJsonLines(join(top, 'a2.jsonl'), join(top, 'b.job')))).toEqual({
      added: 1,
      already: 3,
      sameChain: false,
    });
    expect(must(await importJsonLines(join(top, 'a2.jsonl'), join(top, 'b.job'))).added).toBe(0);
    const job = must(openJob(join(top, 'b.job')));
    expect(job.problems).toEqual([]);
    expect(job.state.notes.get('job')?.map((n) => n.text)).toEqual(['note 1', 'note 2', 'note 3', 'b.job', 'a.job']);
    const last = must(await job.journal.read(5))[0];
    expect(last?.digest).toBe(draftOf(50, 'note', { text: 'a.job' }).digest);
    job.close();
  });

  it('a file with a changed, missing or strange line is refused whole', async () => {
    const { top, file } = await exported(4);
    const lines = fs.readFileSync(file, 'utf8').trim().split('\n');
    const broken: [string, string[]][] = [
      ['EXPORT_UNREADABLE', lines.slice(1)],
      ['EXPORT_UNREADABLE', [...lines.slice(0, 3), '{"seq":3}', ...lines.slice(4)]],
      ['EXPORT_UNREADABLE', [...lines.slice(0, 3), lines[3]?.slice(0, 40) ?? '']],
      ['CHAIN_BROKEN', [...lines.slice(0, 2), ...lines.slice(3)]],
      ['CHAIN_BROKEN', lines.map((l) => l.replace('note 2', 'note 7'))],
    ];
    for (const [code, text] of broken) {
      expect(fromJsonLines(text.join('\n')), code).toMatchObject({ ok: false, problem: { code } });
      fs.writeFileSync(join(top, 'bad.jsonl'), text.join('\n'));
      expect(await importJsonLines(join(top, 'bad.jsonl'), join(top, 'c.job'))).toMatchObject({ ok: false });
      expect(fs.existsSync(join(top, 'c.job'))).toBe(false);
    }
  });

  it('text and back is the same', async () => {
    const { file } = await exported(3);
    const text = fs.readFileSync(file, 'utf8');
    expect(toJsonLines(must(fromJsonLines(text)).stored)).toBe(text);
  });
});
