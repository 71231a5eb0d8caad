// Exports of evidence asked for over the interface, waited for, and fetched.
import type { TestService } from "./app.ts";

export interface Exported {
  id: string;
  state: string;
  title: string;
  fileName: string;
  jobsDone: number;
  jobsTotal: number;
  bytes: number;
  sha256: string;
  problem: string | null;
}

const auditorOf = (service: TestService) => service.as(service.firm.people.auditor);
const PATH = "/api/v1/evidence-exports";
const A_MOMENT_MS = 50;
const MOMENTS_MOST = 1200;

/** Reads the export until it is made or has failed. */
export async function whenMade(service: TestService, id: string): Promise<Exported> {
  for (let moment = 0; moment < MOMENTS_MOST; moment += 1) {
    const { body } = await auditorOf(service).get(`${PATH}/${id}`);
    if (body.state !== "making") return body;
    await new Promise((resolve) => setTimeout(resolve, A_MOMENT_MS));
  }
  throw new Error(`the export ${id} is still being made`);
}

export async function exportScope(service: TestService, scope: object): Promise<Exported> {
  const reply = await auditorOf(service).post(PATH).send({ scope });
  if (reply.status !== 201) throw new Error(`refused: ${reply.text}`);
  return whenMade(service, reply.body.id);
}

export async function fetchExport(
  service: TestService,
  id: string,
  headers: Record<string, string> = {},
): Promise<{ status: number; headers: Record<string, string>; bytes: Buffer }> {
  const reply = await auditorOf(service)
    .get(`${PATH}/${id}/bag`)
    .set(headers)
    .buffer(true)
    .parse((response, done) => {
      const chunks: Buffer[] = [];
      response.on("data", (chunk: Buffer) => chunks.push(chunk));
      response.on("end", () => done(null, Buffer.concat(chunks)));
    });
  return { status: reply.status, headers: reply.headers, bytes: reply.body as Buffer };
}
