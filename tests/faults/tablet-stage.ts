// What each of the fault tests needs: the real server on a port, the bad network before it, a look
// behind the service, and jobs.
import type { AddressInfo } from "node:net";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import type { Chance } from "../support/chance.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { expectExactlyOnce, type KeptByTablet } from "./exactly-once.ts";
import { type Fault, FaultProxy } from "./fault-proxy.ts";
import { type Pass, SimpleSender } from "./simple-sender.ts";
import { BusyTablet } from "./tablet-facts.ts";
import { REPLAY, Tally } from "./tally.ts";

export interface FaultStage {
  service: TestService;
  proxy: FaultProxy;
  /** Sends past the bad network. */
  direct: SimpleSender;
  /** Sends through it. */
  sender: SimpleSender;
  tablet(job: PracticeJob): BusyTablet;
  job(): Promise<PracticeJob>;
  expectExactlyOnce(job: PracticeJob, tablets: readonly KeptByTablet[]): Promise<void>;
  tally: Tally;
  stop(): Promise<void>;
}

export async function setFaultStage(): Promise<FaultStage> {
  const service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
  await service.app.listen({ port: 0, host: "127.0.0.1" });
  const { port } = service.app.server.address() as AddressInfo;
  const proxy = await FaultProxy.before(port);
  const tally = await Tally.of(service.ownerUrl);
  const { id } = service.firm.people.installer;
  const pass = passOf(service);
  return {
    service,
    proxy,
    direct: new SimpleSender(port, pass),
    sender: new SimpleSender(proxy.port, pass),
    tablet: (job) => new BusyTablet(job, id),
    job: () => addPracticeJob(service),
    tally,
    expectExactlyOnce: async (job, tablets) => {
      await tally.add(tablets.flatMap(({ kept }) => kept));
      await expectExactlyOnce(tally.client, job.jobId, tablets, REPLAY);
    },
    stop: async () => {
      await tally.close();
      await proxy.stop();
      await service.stop();
    },
  };
}

function passOf({ anonymous, firm }: TestService): Pass {
  const { email, token } = firm.people.installer;
  const pass: Pass = {
    token,
    renew: async () => {
      const reply = await anonymous.post("/api/v1/session").send({ email, password: PASSWORD });
      if (reply.status !== 201) throw new Error(`signing in again was answered ${reply.status}`);
      pass.token = reply.body.accessToken;
    },
  };
  return pass;
}

/** Sends one operation into the fault, then again until a reply comes. */
export async function sendThrough(
  { proxy, sender }: FaultStage,
  tablet: BusyTablet,
  chance: Chance,
  fault: Fault,
) {
  const op = tablet.keep(chance);
  proxy.meet(fault);
  const lost = await sender.send([op]);
  const reply = await sender.send([op]);
  tablet.learn(reply);
  return { lost, result: reply?.results[0] };
}
