// The one door to the files of photos and documents, each under its SHA-256: a folder, or a bucket
// of S3-compatible storage that any number of instances share. Nothing else knows which.
import { bucket } from "./bucket.ts";
import type { FileStorage } from "./file-storage.ts";
import { folder } from "./folder.ts";

/** The settings that say where files lie; the whole configuration is one of these. */
export interface FilesHome {
  dataFolder: string;
  PHOTO_BUCKET_URL?: string | undefined;
}

export const fileStorage = ({ dataFolder, PHOTO_BUCKET_URL }: FilesHome): FileStorage =>
  PHOTO_BUCKET_URL ? bucket(PHOTO_BUCKET_URL) : folder(dataFolder);
