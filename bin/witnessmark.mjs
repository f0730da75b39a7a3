#!/usr/bin/env node
import { ensureBuilt } from '../tools/ensure-built.mjs';

await ensureBuilt();
const { main } = await import('../dist/cli.js');
process.exitCode = await main(process.argv.slice(2));
