import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { FIRMWARE_SEVERITIES } from "../../domain/firmware/deadline.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { number, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { retell } from "../../language/sentences/retell.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, type FormBody, readForm, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { listProductModels } from "../product-models/store.ts";
import { keepRelease, withdraw } from "./keep-release.ts";
import { listReleases } from "./release-store.ts";
import { NewRing } from "./ring-schemas.ts";
import { addRing, listRings } from "./ring-store.ts";
import { holdRing, openRing, rollOut, startRollOut } from "./roll-out.ts";
import { NewRelease, type TARGET_STATES } from "./schemas.ts";
import { setTarget } from "./set-target.ts";
import { EVERYWHERE, findTarget } from "./target-store.ts";

const MODELS_MOST = 100;
const RELEASES_MOST = 200;
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
type Form = "release" | "ring";

export const firmwareReleasePages: Feature = async (app, { db, now }) => {
  app.get("/firmware/releases", {
    schema: { operationId: "firmwareReleasesPage", hide: true },
    handler: async (request, reply) => show(request, reply),
  });

  app.post("/firmware/releases", {
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
      if (!read.ok) return show(request, reply.code(422), { release: typed }, read.problems);
      try {
        await inFirm(db, signedIn(request).firmId, (tx) => keepRelease(tx, read.value));
      } catch (error) {
        return show(request, reply.code(422), { release: typed }, refusedFields(error));
      }
      return reply.redirect("/firmware/releases", 303);
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
      const again = { ring: request.body };
      if (!read.ok) return show(request, reply.code(422), again, read.problems);
      const row = await inFirm(db, signedIn(request).firmId, (tx) => addRing(tx, read.value));
      if (row) return reply.redirect("/firmware/releases", 303);
      const taken = { "": say(request.language, "releases.ringTaken") };
      return show(request, reply.code(422), again, taken);
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
        return show(request, reply.code(409), {}, refusedFields(error));
      }
      return reply.redirect("/firmware/releases", 303);
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    typed: Partial<Record<Form, FormBody>> = {},
    problems?: FieldProblems,
  ) {
    const { language } = request;
    const { firmId, roles } = signedIn(request);
    const data = await inFirm(db, firmId, (tx) => readAll(tx, now()));
    const withReleases = new Set(data.releases.map(({ modelId }) => modelId));
    return sendPage(request, reply, "firmware-releases", {
      title: say(language, "releases.title"),
      problems,
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
      models: data.models
        .filter(({ id }) => withReleases.has(id))
        .map(({ id, code }) => ({
          ...{ id, code },
          targets: (data.rollOuts.get(id) ?? []).map((one) => targetRow(one, language)),
          releases: data.releases
            .filter(({ modelId }) => modelId === id)
            .toReversed()
            .map((release) => releaseRow(release, language)),
        })),
      modelChoices: data.models.map(({ id, code }) => ({ value: id, text: code })),
      severities: FIRMWARE_SEVERITIES.map((value) => ({
        value,
        text: say(language, `fleet.severity.${value}`),
      })),
    });
  }
};

async function readAll(tx: FirmTransaction, now: Date) {
  const models = await listProductModels(tx, { most: MODELS_MOST });
  const releases = await listReleases(tx, { most: RELEASES_MOST });
  const rollOuts = new Map<string, Awaited<ReturnType<typeof rollOut>>>();
  for (const { id } of models) rollOuts.set(id, await rollOut(tx, id, now));
  return { models, releases, rollOuts, rings: await listRings(tx) };
}

const RING_DEFAULTS = { updatedLeast: "5", soakDays: "7", failurePercent: "2" };

function targetRow(
  { target, progress }: Awaited<ReturnType<typeof rollOut>>[number],
  language: ShownLanguage,
) {
  const state = target.state as (typeof TARGET_STATES)[number];
  return {
    ...{ id: target.id, version: target.version, level: target.release.level, state },
    where: target.ring?.name ?? target.region ?? say(language, "releases.everywhere"),
    isRing: target.ringId !== null,
    stateName: say(language, `releases.state.${state}`),
    tag: state === "held" ? "bad" : state === "waiting" ? "plain" : "good",
    due: plainDay(language, target.dueOn.toISOString().slice(0, 10)),
    told: target.heldReason ?? (progress && retell(language, progress.sentence)),
  };
}

function releaseRow(
  release: Awaited<ReturnType<typeof listReleases>>[number],
  language: ShownLanguage,
) {
  return {
    ...release,
    severity: say(language, `fleet.severity.${release.severity as "safety"}`),
    released: plainDay(language, release.releasedOn.toISOString().slice(0, 10)),
    withdrawn: release.withdrawnOn
      ? plainDay(language, release.withdrawnOn.toISOString().slice(0, 10))
      : undefined,
    revisions: release.hardwareRevisions.join(", "),
  };
}
