/** What others use of the store, in one place. */
export { type BackupReport, backup, restore } from './backup.ts';
export { type Disk, REAL_DISK } from './disk.ts';
export { acceptLoss, createJob, isJobFolder, type JobFolder, type OpenOptions, openJob } from './job-folder.ts';
export { exportJsonLines, type ImportReport, importJsonLines } from './json-lines.ts';
export { isoWithOffset, nodeSha256Hex, SYSTEM_CLOCK, systemIds } from './machine.ts';
export { MemoryPhotographs } from './memory-photographs.ts';
export { createShop, isShopFolder, openShop, type ShopFolder } from './shop-folder.ts';
export { STORE_PROBLEMS } from './store-problems.ts';
export { type PhotoReport, type VerifyReport, verify } from './verify.ts';
