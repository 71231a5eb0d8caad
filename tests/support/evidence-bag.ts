// A job with everything that evidence is made of, its bag taken away and unpacked.
import { createHash } from "node:crypto";
import { createWriteStream } from "node:fs";
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pipeline } from "node:stream/promises";
import sharp from "sharp";
import { openFile } from "../../src/cli/verify-file.ts";
import { openZip } from "../../src/verify/zip.ts";
import { startService, type TestService } from "./app.ts";
import { addPracticeJob, type PracticeJob } from "./practice-job.ts";

export interface EvidenceStage {
  service: TestService;
  folder: string;
  stop(): Promise<void>;
}

/** A service whose data folder, and a folder to work in, are the caller's own. */
export async function startEvidence(
  now: () => Date,
  more: (folder: string) => Promise<Record<string, string>> = async () => ({}),
): Promise<EvidenceStage> {
  const folder = await mkdtemp(join(tmpdir(), "evidence-"));
  const environment = {
    DATA_DIR: join(folder, "data"),
    PUBLIC_URL: "https://alder.example",
    ...(await more(folder)),
  };
  const service = await startService({ environment, now });
  const stop = async (): Promise<void> => {
    await service.stop();
    await rm(folder, { recursive: true, force: true });
  };
  return { service, folder, stop };
}

export async function sendPhoto(service: TestService, jobId: string, shade: number) {
  const bytes = await sharp({
    create: { width: 24, height: 16, channels: 3, background: { r: shade, g: 80, b: 40 } },
  })
    .png()
    .toBuffer();
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  const reply = await service
    .as(service.firm.people.installer)
    .put(`/api/v1/jobs/${jobId}/photos/${sha256}`)
    .set("content-type", "image/png")
    .send(bytes);
  if (reply.status !== 201) throw new Error(`the photo was refused: ${reply.text}`);
  return sha256;
}

/** Answers that pass but for one, which a manager concedes; a photo; then closed. */
export async function addProvenJob(service: TestService): Promise<PracticeJob> {
  const job = await addPracticeJob(service);
  const { installer, manager } = service.firm.people;
  const photo = await sendPhoto(service, job.jobId, 200);
  const answers = job.answers().map((answer, index) => ({
    ...answer,
    ...(index === 0 ? { photos: [photo], note: "=read twice, “steady”" } : {}),
  }));
  const missed = answers.findIndex(({ itemId }) => itemId === "pack_voltage_on");
  answers[missed] = { ...answers[missed]!, value: { number: "36,9", unit: "V" } };
  const path = `/api/v1/jobs/${job.jobId}`;
  await expectCreated(service.as(installer).post(`${path}/answers`).send({ answers }));
  const { itemId, subject } = answers[missed]!;
  const reason = "Rested pack; the maker accepts it in writing.";
  const grant = { itemId, subject, reason };
  await expectCreated(service.as(manager).post(`${path}/concessions`).send(grant));
  await expectCreated(service.as(installer).post(`${path}/close-out`));
  return job;
}

/** One reading failed and then passed, another conceded; a note and a photo; then closed. */
export async function addTriedJob(service: TestService, note: string) {
  const job = await addPracticeJob(service);
  const { installer, manager } = service.firm.people;
  const photo = await sendPhoto(service, job.jobId, 200);
  const [answers, others] = [job.answers(), job.answers()];
  answers[0] = { ...answers[0]!, photos: [photo], note };
  const readVolts = (at: number, number: string) => {
    answers[at] = { ...answers[at]!, value: { number, unit: "V" } };
  };
  const first = answers.findIndex(({ itemId }) => itemId === "pack_voltage_on");
  const last = answers.findLastIndex(({ itemId }) => itemId === "pack_voltage_on");
  readVolts(first, "36.9");
  readVolts(last, "37.25");
  const again = { ...others[first]!, value: { number: "51.3", unit: "V" } };
  const path = `/api/v1/jobs/${job.jobId}`;
  const sent = { answers: [...answers, again] };
  await expectCreated(service.as(installer).post(`${path}/answers`).send(sent));
  const { itemId, subject } = answers[last]!;
  const grant = { itemId, subject, reason: "Rested pack; the maker accepts it." };
  await expectCreated(service.as(manager).post(`${path}/concessions`).send(grant));
  await expectCreated(service.as(installer).post(`${path}/close-out`));
  return { job, photo };
}

async function expectCreated(sent: PromiseLike<{ status: number; text: string }>): Promise<void> {
  const reply = await sent;
  if (reply.status !== 201) throw new Error(`refused: ${reply.text}`);
}

export async function downloadBag(service: TestService, jobId: string): Promise<Buffer> {
  const reply = await service
    .as(service.firm.people.auditor)
    .get(`/api/v1/jobs/${jobId}/evidence-bag`)
    .buffer(true)
    .parse((response, done) => {
      const chunks: Buffer[] = [];
      response.on("data", (chunk: Buffer) => chunks.push(chunk));
      response.on("end", () => done(null, Buffer.concat(chunks)));
    });
  if (reply.status !== 200) throw new Error(`no bag: ${reply.body}`);
  return reply.body as Buffer;
}

/** Unpacks a bag into a new folder under `within`. */
export async function unpack(bag: Buffer, within: string): Promise<string> {
  const folder = await mkdtemp(join(within, "bag-"));
  const zip = `${folder}.zip`;
  await writeFile(zip, bag);
  const source = await openZip(await openFile(zip));
  for (const name of source.names) {
    await mkdir(dirname(join(folder, name)), { recursive: true });
    await pipeline(source.open(name), createWriteStream(join(folder, name)));
  }
  return folder;
}

export async function certificatesOf(service: TestService): Promise<string> {
  const path = `/.well-known/holdpoint/${service.firm.firmId}/certificates.pem`;
  const reply = await service.anonymous.get(path).buffer(true);
  return reply.text ?? String(reply.body);
}
