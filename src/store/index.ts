/** What others use of the store, in one place. */
export { keptFingerprint, type ShopCertificate, shopCertificate } from './authority/authority.ts';
export { DEFAULT_LAN_NAME, type LanAddress, lanAddresses, readLanName } from './authority/lan-names.ts';
export { type BackupReport, backup, restore } from './backup.ts';
export { CODE_MINUTES, DeviceRegister, type Over, type PairedDevice, type PairingCode } from './devices.ts';
export { type Disk, REAL_DISK } from './disk.ts';
export { Gate } from './in-turn.ts';
export { INTAKE_PROBLEMS, intakeProblem } from './intake-problems.ts';
export { acceptLoss, createJob, isJobFolder, type JobFolder, type OpenOptions, openJob } from './job-folder.ts';
export { exportJsonLines, type ImportReport, importJsonLines } from './json-lines.ts';
export { isoWithOffset, nodeSha256Hex, SYSTEM_CLOCK, systemIds } from './machine.ts';
export { MemoryPhotographs } from './memory-photographs.ts';
export { lookAtPhoto, MOST_BYTES, withoutMetadata } from './photo-intake.ts';
export { openPile, PILE_LIMITS, pileOfBytes } from './photo-pile.ts';
export { typstPrinter } from './print/typst-printer.ts';
export { createShop, isShopFolder, openShop, type ServedAt, type ShopFolder } from './shop-folder.ts';
export { STORE_PROBLEMS } from './store-problems.ts';
export { keepUpload, type UploadFile, uploadTooLarge } from './upload-file.ts';
export { type PhotoReport, type VerifyReport, verify } from './verify.ts';
