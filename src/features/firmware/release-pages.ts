import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { FIRMWARE_SEVERITIES } from "../../domain/firmware/deadline.ts";
import { number } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, type FormBody, readForm, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { listProductModels } from "../product-models/store.ts";
import { keepRelease, withdraw } from "./keep-release.ts";
import { RELEASE_COLUMNS, sortedReleases } from "./release-sorted-store.ts";
import { releaseRow, targetRow } from "./release-view.ts";
import { NewRing } from "./ring-schemas.ts";
import { addRing, listRings } from "./ring-store.ts";
import { holdRing, openRing, rollOut, startRollOut } from "./roll-out.ts";
import { NewRelease } from "./schemas.ts";
import { setTarget } from "./set-target.ts";
import { EVERYWHERE, findTarget } from "./target-store.ts";

const PATH = "/firmware/releases";
const USUAL = "model";
const MODELS_MOST = 1000;
const PageQuery = z.object({
  ...sortedQuery(RELEASE_COLUMNS),
  modelId: asked(z.guid()),
  severity: asked(z.enum(FIRMWARE_SEVERITIES)),
  withdrawn: asked(z.enum(["true", "false"])),
});
type PageQuery = z.infer<typeof PageQuery>;
const FormFields = z.record(z.string(), z.string().max(5000));
const version = z.coerce.number().int();
const Act = z.discriminatedUnion("action", [
  z.object({ action: z.literal("target"), releaseId: z.guid(), modelId: z.guid() }),
  z.object({ action: z.literal("roll-out"), releaseId: z.guid(), modelId: z.guid() }),
  z.object({
    action: z.literal("withdraw"),
    releaseId: z.guid(),
    reason: z.string().trim().max(1000).optional(),
  }),
  z.object({ action: z.literal("open"), targetId: z.guid(), version }),
  z.object({ action: z.literal("hold"), targetId: z.guid(), version, reason: z.string().max(500) }),
]);
interface Failed {
  typed?: Partial<Record<"release" | "ring", FormBody>>;
  problems?: FieldProblems;
}

export const firmwareReleasePages: Feature = async (app, { db, now }) => {
  app.get(PATH, {
    schema: { operationId: "firmwareReleasesPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => show(request, reply, request.query),
  });

  app.post(PATH, {
    schema: { operationId: "addReleaseForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const { revisions = "", fileBytes, deadlineDays, ...rest } = typed;
      const read = readForm(NewRelease, {
        ...rest,
        ...(fileBytes ? { fileBytes: Number(fileBytes) } : {}),
        ...(deadlineDays ? { deadlineDays: Number(deadlineDays) } : {}),
        hardwareRevisions: revisions.split(/[\s,]+/).filter((one) => one !== ""),
      });
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), {}, { typed: { release: typed }, problems });
      if (!read.ok) return again(read.problems);
      try {
        await inFirm(db, signedIn(request).firmId, (tx) => keepRelease(tx, read.value));
      } catch (error) {
        return again(refusedFields(error));
      }
      return reply.redirect(PATH, 303);
    },
  });

  app.post("/firmware/rings", {
    schema: { operationId: "addRingForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const { failurePercent = "2", opensItself, ...typed } = request.body;
      const read = readForm(NewRing, {
        ...typed,
        failureMost: Number(failurePercent.replace(",", ".")) / 100,
        opensItself: opensItself === "true",
      });
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), {}, { typed: { ring: request.body }, problems });
      if (!read.ok) return again(read.problems);
      const row = await inFirm(db, signedIn(request).firmId, (tx) => addRing(tx, read.value));
      if (row) return reply.redirect(PATH, 303);
      return again({ "": say(request.language, "releases.ringTaken") });
    },
  });

  app.post("/firmware/actions", {
    schema: { operationId: "firmwareActionForm", hide: true, body: Act },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const act = request.body;
      try {
        await inFirm(db, firmId, async (tx) => {
          if (act.action === "target") {
            const { modelId, releaseId } = act;
            const present = await findTarget(tx, modelId);
            const wish = { modelId, releaseId, personId, dueOn: undefined, scope: EVERYWHERE };
            return setTarget(tx, { ...wish, version: present?.version }, now());
          }
          if (act.action === "roll-out") return startRollOut(tx, { ...act, personId }, now());
          if (act.action === "withdraw") {
            return withdraw(tx, act.releaseId, act.reason || undefined, now());
          }
          if (act.action === "open") return openRing(tx, act.targetId, act.version, now());
          return holdRing(tx, act.targetId, act.version, act.reason || "–");
        });
      } catch (error) {
        return show(request, reply.code(409), {}, { problems: refusedFields(error) });
      }
      return reply.redirect(PATH, 303);
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    query: PageQuery,
    { typed = {}, problems }: Failed = {},
  ) {
    const { language } = request;
    const { firmId, roles } = signedIn(request);
    const data = await inFirm(db, firmId, (tx) => readAll(tx, query, now()));
    const { sort: _sort, cursor: _cursor, ...filter } = query;
    return sendPage(request, reply, "firmware-releases", {
      title: say(language, "releases.title"),
      ...{ problems, filter, list: data.list },
      filtered: Object.values(filter).some((value) => value !== undefined),
      typed: {
        release: { releasedOn: now().toISOString().slice(0, 10), ...typed.release },
        ring: { position: String(data.rings.length + 1), ...RING_DEFAULTS, ...typed.ring },
      },
      rings: data.rings.map((ring) => ({
        ...ring,
        failurePercent: number(language, Math.round(ring.failureMost * 1000) / 10),
      })),
      mayEdit: roles.some((role) => role === "owner" || role === "manager"),
      mayOpen: roles.includes("manager"),
      targets: data.targets.map(({ code, ...one }) => ({ code, ...targetRow(one, language) })),
      releases: data.releases.map((release) => releaseRow(release, language)),
      modelChoices: data.models.map(({ id, code }) => ({ value: id, text: code })),
      severities: FIRMWARE_SEVERITIES.map((value) => ({
        value,
        text: say(language, `fleet.severity.${value}`),
      })),
    });
  }
};

/** A page of releases, and the targets of their models. */
async function readAll(tx: FirmTransaction, query: PageQuery, now: Date) {
  const { modelId, severity, withdrawn } = query;
  const filter = {
    ...{ modelId, severity },
    withdrawn: withdrawn === undefined ? undefined : withdrawn === "true",
  };
  const asks = { sorting: sortingOf(query, USUAL), most: A_PAGE + 1 };
  const { rows: releases, list } = sortedPage(await sortedReleases(tx, filter, asks), {
    ...{ path: PATH, columns: RELEASE_COLUMNS, usual: USUAL, query },
    exportPath: "/api/v1/exports/releases.csv",
  });
  const shown = new Map(releases.map((release) => [release.modelId, release.modelCode]));
  const targets = [];
  for (const [id, code] of shown) {
    targets.push(...(await rollOut(tx, id, now)).map((one) => ({ ...one, code })));
  }
  const models = (await listProductModels(tx, { most: MODELS_MOST })).toSorted((one, other) =>
    one.code.localeCompare(other.code),
  );
  return { releases, list, targets, models, rings: await listRings(tx) };
}

const RING_DEFAULTS = { updatedLeast: "5", soakDays: "7", failurePercent: "2" };
