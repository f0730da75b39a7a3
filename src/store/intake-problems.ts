/** Codes of taking in what others made: uploads, archives, folders, workbooks. For `docs/errors.md`. */
import { type Problem, type ProblemList, problem } from '../domain/problem.ts';

export const INTAKE_PROBLEMS = {
  UPLOAD_TOO_LARGE: {
    meaning: 'More was sent at once than is taken.',
    remedy: 'Send it in several parts; from this machine, import the folder itself on the command line.',
  },
  UPLOAD_CUT: {
    meaning: 'The connection ended before all was sent.',
    remedy: 'Send it again; nothing of it was recorded.',
  },
  ZIP_SHAPE: {
    meaning: 'The file is no ZIP, or its list of contents is cut or contradicts itself.',
    remedy: 'Make the ZIP again, or unpack it and import the folder.',
  },
  ZIP_LIMIT: {
    meaning: 'The ZIP holds more entries, or more when unpacked, than is taken in; or its entries overlap.',
    remedy: 'Make several smaller ZIPs, or unpack it yourself and import the folder.',
  },
  ZIP_64: {
    meaning: 'The ZIP is of the form for more than 4 GB or 65,535 entries, which is not read.',
    remedy: 'Make several ZIPs under 4 GB, or import the folder itself.',
  },
  ZIP_ENTRY_SEALED: {
    meaning: 'A file in the ZIP is encrypted.',
    remedy: 'Make the ZIP again without a password; the other files are taken in.',
  },
  ZIP_ENTRY_LINK: {
    meaning: 'An entry of the ZIP or folder is a link or a device, not a file.',
    remedy: 'Put the file itself there; links are never followed.',
  },
  ZIP_ENTRY_NESTED: {
    meaning: 'A file in the ZIP or folder is itself an archive.',
    remedy: 'Unpack it and import what was in it; archives in archives are not opened.',
  },
  ZIP_ENTRY_METHOD: {
    meaning: 'A file in the ZIP is packed by a method that is not read.',
    remedy: 'Make the ZIP again with the usual method (deflate), or import the folder.',
  },
  ZIP_ENTRY_LARGE: {
    meaning: 'A file unpacks to more bytes than is taken, or to far more than it was packed into.',
    remedy: 'Look at the file by itself; a photograph hardly shrinks when it is packed.',
  },
  ZIP_ENTRY_CUT: {
    meaning: 'A file in the ZIP is cut, or is not what the list of contents says (size, checksum, place).',
    remedy: 'Copy it from the camera again; the other files are taken in.',
  },
  ZIP_NAME: {
    meaning:
      'A name in the ZIP tries to leave the folder, or is not readable as text. Names are only shown, never used.',
    remedy: 'Nothing needs doing: the file is kept by its content. The name is shown as far as it can be read.',
  },
  TABLE_KIND: {
    meaning: 'The content is neither an XLSX workbook nor text.',
    remedy: 'Open it in a spreadsheet program and save it as XLSX or CSV.',
  },
  TABLE_TOO_LARGE: {
    meaning: 'The table has more rows, columns or bytes than a parts list has.',
    remedy: 'Save only the sheet with the list, without empty rows and pictures, and import that.',
  },
  WORKBOOK_UNREADABLE: {
    meaning:
      'The workbook cannot be read, or holds what a workbook has no need of (outside entities, far too large parts).',
    remedy: 'Open it in a spreadsheet program, save the sheet as CSV, and import that.',
  },
  SHEET_UNKNOWN: {
    meaning: 'No sheet of the workbook has that name.',
    remedy: 'Choose one of the sheets that are named.',
  },
  SHEET_WHICH: {
    meaning: 'The workbook has several filled sheets, and none was chosen.',
    remedy: 'Name the sheet with the parts list (`--sheet NAME`).',
  },
} as const satisfies ProblemList;

export type IntakeProblemCode = keyof typeof INTAKE_PROBLEMS;

export function intakeProblem(code: IntakeProblemCode, message: string, where?: string): Problem {
  return problem(code, message, INTAKE_PROBLEMS[code].remedy, where);
}
