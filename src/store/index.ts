/** What others use of the store, in one place. */
export { type Disk, REAL_DISK } from './disk.ts';
export { acceptLoss, createJob, isJobFolder, type JobFolder, type OpenOptions, openJob } from './job-folder.ts';
export { isoWithOffset, nodeSha256Hex, SYSTEM_CLOCK, systemIds } from './machine.ts';
export { MemoryPhotographs } from './memory-photographs.ts';
export { createShop, isShopFolder, openShop, type ShopFolder } from './shop-folder.ts';
export { STORE_PROBLEMS } from './store-problems.ts';
