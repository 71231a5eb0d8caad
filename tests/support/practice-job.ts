// The trade's practice installation as a real job: plan, packs and instruments stored, answers to
// send.
import { uuidv7 } from "uuidv7";
import { inFirm } from "../../src/db/scope.ts";
import {
  PACKS,
  PRACTICE_CONTEXT,
  PRACTICE_PLAN,
  passingAnswers,
} from "../domain/closeout/practice-plan.ts";
import type { TestService } from "./app.ts";
import { addJobRows } from "./rows.ts";

export interface WireAnswer {
  id: string;
  itemId: string;
  subject: string;
  takenAt: string;
  instrumentId?: string;
  photos?: string[];
  note?: string;
  value: unknown;
}

export interface PracticeJob {
  jobId: string;
  siteId: string;
  planVersionId: string;
  packIds: string[];
  instruments: Record<string, string>;
  /** Answers that pass every item, with ids of their own each time. */
  answers(): WireAnswer[];
}

export async function addPracticeJob(service: TestService): Promise<PracticeJob> {
  const { firmId } = service.firm;
  const rows = await addJobRows(service, PRACTICE_PLAN);
  const mark = rows.jobId.slice(-6).toUpperCase();
  const packIds = PACKS.map(() => uuidv7());
  const serials = packIds.map((_, index) => `KH${mark}${index + 1}`);
  const instruments: Record<string, string> = {};
  await inFirm(service.db, firmId, async (tx) => {
    const modelId = uuidv7();
    await tx.productModel.create({
      data: {
        firmId,
        id: modelId,
        code: `KESTREL-${mark}`,
        name: "Kestrel 5",
        maker: "Harrowmere",
        kind: "battery-pack",
        attributes: {},
        serialMask: "KH*{7}",
        serialCheck: "none",
        firmwareScheme: "semver",
      },
    });
    for (const [index, id] of packIds.entries()) {
      const serial = serials[index]!;
      await tx.unit.create({ data: { firmId, id, modelId, serial, state: "received" } });
      await tx.jobUnit.create({
        data: { firmId, jobId: rows.jobId, unitId: id, position: index + 1 },
      });
    }
    for (const known of PRACTICE_CONTEXT.instruments) {
      const id = uuidv7();
      instruments[known.class] = id;
      await tx.instrument.create({
        data: {
          firmId,
          id,
          reference: `${known.reference}-${mark}`,
          name: known.class,
          instrumentClass: known.class,
          serial: mark,
        },
      });
      const [calibration] = known.calibrations;
      await tx.calibration.create({
        data: {
          firmId,
          id: uuidv7(),
          instrumentId: id,
          calibratedOn: new Date(calibration!.on),
          dueOn: new Date(calibration!.due),
          passed: true,
          certificate: "K-1",
        },
      });
    }
  });
  const instrumentOf = new Map(
    PRACTICE_CONTEXT.instruments.map((known) => [known.id, instruments[known.class]!]),
  );
  const answers = (): WireAnswer[] =>
    passingAnswers().map(({ instrumentId, personId: _person, order: _order, ...answer }) => {
      const pack = PACKS.indexOf(answer.subject as never);
      return {
        ...answer,
        id: uuidv7(),
        subject: pack < 0 ? "" : packIds[pack]!,
        value: answer.itemId === "serial" ? { text: serials[pack] } : answer.value,
        photos: [],
        ...(instrumentId ? { instrumentId: instrumentOf.get(instrumentId)! } : {}),
      };
    });
  return { ...rows, packIds, instruments, answers };
}
