// A service to which photos are sent in pieces, over real connections.
import { randomInt } from "node:crypto";
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { startService, type TestService } from "./app.ts";
import {
  noisePicture,
  type SentPiece,
  sha256Of,
  type UploadReply,
  UploadSender,
} from "./photo-sender.ts";
import { addJobRows } from "./rows.ts";

export interface PhotoInPieces {
  jobId: string;
  name: string;
  picture: Buffer;
  ask(): Promise<UploadReply>;
  /** Sends the bytes from one place up to another. */
  send(from: number, to: number, more?: Partial<SentPiece>): Promise<UploadReply>;
  sendAll(more?: Partial<SentPiece>): Promise<UploadReply>;
  /** Files of the job that are not whole yet. */
  partials(): string[];
  /** The job's photos. */
  photos(): Promise<{ sha256: string; bytes: number }[]>;
  keptBytes(): Buffer;
  /** Where it lies while it is not whole. */
  path: string;
  bytesHere(): number;
}

export interface Uploads {
  service: TestService;
  folder: string;
  address: string;
  sender: UploadSender;
  /** A photo that nobody sent yet, for a job of its own. */
  newPhoto(bytes?: Buffer): Promise<PhotoInPieces>;
  stop(): Promise<void>;
}

export async function startUploads(): Promise<Uploads> {
  const folder = mkdtempSync(join(tmpdir(), "holdpoint-uploads-"));
  const service = await startService({ environment: { DATA_DIR: folder } });
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  const sender = new UploadSender(address, service.firm.people.installer.token);
  const stop = async (): Promise<void> => {
    await service.stop();
    rmSync(folder, { recursive: true, force: true });
  };
  const newPhoto = async (bytes?: Buffer): Promise<PhotoInPieces> => {
    const { jobId } = await addJobRows(service, { schema: "plan/1", stages: [] });
    const picture = bytes ?? (await noisePicture(40_000, randomInt(2 ** 31)));
    return photoOf({ service, folder, sender }, jobId, picture);
  };
  return { service, folder, address, sender, newPhoto, stop };
}

function photoOf(
  { service, folder, sender }: Pick<Uploads, "service" | "folder" | "sender">,
  jobId: string,
  picture: Buffer,
): PhotoInPieces {
  const name = sha256Of(picture);
  const { firmId, people } = service.firm;
  const place = join(folder, "photo-uploads", firmId, jobId);
  const path = join(place, `${name}.part`);
  const send: PhotoInPieces["send"] = (from, to, more = {}) => {
    const bytes = picture.subarray(from, to);
    return sender.send(jobId, name, { offset: from, length: picture.length, bytes, ...more });
  };
  return {
    jobId,
    name,
    picture,
    send,
    ask: () => sender.ask(jobId, name),
    sendAll: (more) => send(0, picture.length, more),
    partials: () => readdirSync(place),
    path,
    bytesHere: () => statSync(path, { throwIfNoEntry: false })?.size ?? 0,
    photos: async () =>
      (await service.as(people.office).get(`/api/v1/jobs/${jobId}/photos`)).body.items,
    keptBytes: () => readFileSync(join(folder, "photos", firmId, name.slice(0, 2), name)),
  };
}
