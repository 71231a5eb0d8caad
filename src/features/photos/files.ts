// The one door to the files of photos and documents, each under its SHA-256: a folder, or a bucket
// of S3-compatible storage that any number of instances share. Nothing else knows which.
import { bucket } from "./bucket.ts";
import type { FileStorage } from "./file-storage.ts";
import { folder } from "./folder.ts";
import { refuseMalware } from "./malware-scanner.ts";

/** The settings that say where files lie; the whole configuration is one of these. */
export interface FilesHome {
  dataFolder: string;
  PHOTO_BUCKET_URL?: string | undefined;
  /** Who looks at each file before it is kept. */
  MALWARE_SCANNER_URL?: string | undefined;
}

export function fileStorage(home: FilesHome): FileStorage {
  const { dataFolder, PHOTO_BUCKET_URL, MALWARE_SCANNER_URL: scanner } = home;
  const storage = PHOTO_BUCKET_URL ? bucket(PHOTO_BUCKET_URL) : folder(dataFolder);
  if (scanner === undefined) return storage;
  return {
    ...storage,
    keep: async (name, bytes) => {
      await refuseMalware(scanner, bytes);
      await storage.keep(name, bytes);
    },
  };
}
