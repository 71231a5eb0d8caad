// The jobs as they are shown: by the packet that was first seen, until a newer one brings nothing
// that would surprise or is taken over.
import type { Packet } from "../../features/tablet/schemas.ts";
import type { KeptOp } from "../contract.ts";
import { type JobState, readJob } from "../job/job-state.ts";
import { packetChanges } from "../job/packet-changes.ts";

export class ShownJobs {
  readonly #shown = new Map<string, Packet>();
  readonly #jobs = new Map<string, { key: string; job: JobState }>();

  /** The job; worked out anew only when something of it changed, or time did. */
  read(latest: Packet, ops: readonly KeptOp[]): JobState {
    const jobId = latest.job.id;
    const packet = this.#packetToShow(latest);
    const known = this.#jobs.get(jobId);
    const now = new Date();
    // Only waiting ends by itself; the day of a concession or a calibration ends with the minute.
    const isWaiting = known?.job.items.some(({ step }) => step.waitsUntil !== undefined);
    const moment = Math.floor(now.getTime() / (isWaiting ? 1000 : 60_000));
    const states = ops.map(({ op, state }) => `${op.deviceSeq}${state}`);
    const key = `${packet.version} ${moment} ${states}`;
    if (known?.key === key) return known.job;
    const job = readJob(packet, ops, now.toISOString());
    this.#jobs.set(jobId, { key, job });
    return job;
  }

  /** What the latest packet changes of the shown one. */
  changes(latest: Packet): string[] {
    const shown = this.#shown.get(latest.job.id);
    return shown ? packetChanges(shown, latest) : [];
  }

  /** The latest packet is shown from now on. */
  forget(jobId: string): void {
    this.#shown.delete(jobId);
  }

  #packetToShow(latest: Packet): Packet {
    const shown = this.#shown.get(latest.job.id);
    if (shown && packetChanges(shown, latest).length > 0) return shown;
    this.#shown.set(latest.job.id, latest);
    return latest;
  }
}
