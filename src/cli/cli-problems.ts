/** Codes of the command line, for `docs/errors.md`. */
import type { ProblemList } from '../domain/problem.ts';

export const CLI_PROBLEMS = {
  NO_SUCH_FILE: { meaning: 'The file or folder named is not there.', remedy: 'Check the path.' },
  NOT_JSON: {
    meaning: 'The text is not JSON.',
    remedy: 'Check quotes and brackets; in a shell put the JSON between single quotes.',
  },
  NO_JOB_HERE: {
    meaning: 'The folder is no job: it has no journal.db.',
    remedy: 'Name a job folder, or make one with `witnessmark new`.',
  },
  BAD_OPTION: {
    meaning: 'An option is missing or cannot be read.',
    remedy: 'See `witnessmark COMMAND --help`, which has examples.',
  },
  FILE_THERE: {
    meaning: 'The file or folder to be written is already there.',
    remedy: 'Name another one; nothing is overwritten.',
  },
  PORT_TAKEN: { meaning: 'Another program listens on that port.', remedy: 'Stop it, or choose another with --port.' },
  LAN_NEEDS_SHOP: {
    meaning:
      'What is served on the network is a shop, since it keeps the devices and keys; this is a job alone, or nothing.',
    remedy:
      'Make one with `witnessmark shop FOLDER --name WORDS`, move the job folder into FOLDER/jobs, and name FOLDER.',
  },
  LAN_NO_ADDRESS: {
    meaning: 'The machine has no address on a network, so nobody could reach it.',
    remedy: 'Join the shop’s Wi-Fi or plug the cable in, then start again; without --lan it serves this machine only.',
  },
  LAN_NEVER_SERVED: {
    meaning: 'A code was asked for, but the shop was never served on its network.',
    remedy: 'Start `witnessmark serve SHOP --lan` first, and leave it running.',
  },
} as const satisfies ProblemList;
export type CliProblemCode = keyof typeof CLI_PROBLEMS;
