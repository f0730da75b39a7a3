/**
 * The port `Printer` by Typst, whose compiler is native code in the package. One compiler for the life of the program; its
 * cache is emptied after each print. What it may read: our fonts and the document handed in, nothing else.
 *
 * Not chosen: a PDF written by hand (shaping, subsetting and right-to-left would be ours to get right) and printing the
 * page of a browser (no exact millimetres, other bytes each time).
 */
import type { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler';
import { failed, ok, type Result } from '../../domain/result.ts';
import type { Mark, PrintDocument, Printer } from '../../records/labels/print-document.ts';
import { printFonts } from './fonts.ts';
import { LABEL_TEMPLATE } from './label-template.ts';
import { printProblem } from './print-problems.ts';
import { qrRuns } from './qr-runs.ts';

let compiler: NodeCompiler | null = null;

export function typstPrinter(): Printer {
  return { pdf: print };
}

async function print(document: PrintDocument): Promise<Result<Uint8Array>> {
  const madeAt = Math.floor(Date.parse(document.madeAt) / 1_000);
  if (!Number.isFinite(madeAt)) throw new Error(`internal: "${document.madeAt}" is no time of a print; report it`);
  const drawn = {
    ...document,
    pages: document.pages.map((page) => page.map((l) => ({ ...l, marks: l.marks.map(drawnMark) }))),
  };
  try {
    compiler ??= await makeCompiler();
    const made = compiler.compile({ mainFileContent: LABEL_TEMPLATE, inputs: { document: JSON.stringify(drawn) } });
    if (made.result === null) {
      const fault = made.takeError();
      return failed(printProblem('PRINT_FAILED', `the typesetter stopped: ${faultText(fault)}`));
    }
    const pdf = compiler.pdf(made.result, { creationTimestamp: madeAt });
    return ok(new Uint8Array(pdf));
  } catch (thrown) {
    return failed(printProblem('PRINT_FAILED', `the typesetter stopped: ${(thrown as Error).message.slice(0, 300)}`));
  } finally {
    compiler?.evictCache(0);
  }
}

/** Loaded when something is first printed: the native library takes a third of a second, which no other command should. */
async function makeCompiler(): Promise<NodeCompiler> {
  const typst = await import('@myriaddreamin/typst-ts-node-compiler');
  return typst.NodeCompiler.create({ fontArgs: [{ fontBlobs: [...printFonts()] }] });
}

/** QR codes as their dark runs, texts with the runs that cannot be broken. */
function drawnMark(mark: Mark): object {
  if (mark.kind === 'qr') return { ...mark, ...qrRuns(mark.text) };
  if (mark.kind !== 'text' || !mark.wraps) return mark;
  const text = breakable(mark.text);
  return { ...mark, text, runs: text.split(/(?<=[-\u200b])|\s/).filter((r) => r !== '') };
}

/** A run of more than sixteen letters may break anywhere after every fourth: a label has no room for it otherwise. */
function breakable(text: string): string {
  return text.replace(/[^\s-]{17,}/gu, (run) => run.replace(/(.{4})/gu, '$1\u200b'));
}

function faultText(fault: ReturnType<NonNullable<ReturnType<NodeCompiler['compile']>>['takeError']>): string {
  const list = fault === null ? [] : (compiler?.fetchDiagnostics(fault) ?? []);
  return list
    .map((d) => String((d as { readonly message?: unknown }).message ?? ''))
    .join('; ')
    .slice(0, 300);
}
