import type { FastifyReply, FastifyRequest } from "fastify";
import qrcode from "qrcode-generator";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { enrolmentUri } from "./codes.ts";
import { beginWithPassword, confirmAndEndOthers } from "./enrol.ts";
import { endTwoStep, openedSecret } from "./second-step.ts";
import { readTwoStep } from "./store.ts";

const PasswordForm = z.object({ presentPassword: z.string().max(200) });
const CodeForm = z.object({ code: z.string().trim().max(40) });

export const twoStepPages: Feature = async (app, { db, config, liveness, now }) => {
  app.get("/account/two-step", {
    schema: { operationId: "twoStepPage", hide: true },
    handler: async (request, reply) => show(request, reply, {}),
  });

  app.post("/account/two-step", {
    schema: { operationId: "beginTwoStepForm", hide: true, body: PasswordForm },
    handler: async (request, reply) => {
      const { presentPassword } = request.body;
      try {
        await beginWithPassword(db, config.dataFolder, signedIn(request), {
          ...{ presentPassword, ip: request.ip },
        });
      } catch (error) {
        return show(request, reply.code(422), { problems: refusedFields(error) });
      }
      return reply.redirect("/account/two-step", 303);
    },
  });

  // The answer to the post shows the recovery codes: they are nowhere to be read again.
  app.post("/account/two-step/confirmation", {
    schema: { operationId: "confirmTwoStepForm", hide: true, body: CodeForm },
    handler: async (request, reply) => {
      const { code } = request.body;
      try {
        const recoveryCodes = await confirmAndEndOthers(db, config.dataFolder, signedIn(request), {
          ...{ code, now: now() },
        });
        liveness.forget();
        return show(request, reply, { recoveryCodes });
      } catch (error) {
        return show(request, reply.code(422), { problems: refusedFields(error) });
      }
    },
  });

  app.post("/account/two-step/ending", {
    schema: { operationId: "endTwoStepForm", hide: true, body: CodeForm },
    handler: async (request, reply) => {
      try {
        await endTwoStep(db, config.dataFolder, signedIn(request), request.body.code, now());
      } catch (error) {
        return show(request, reply.code(422), { problems: refusedFields(error) });
      }
      return reply.redirect("/account", 303);
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    shown: { recoveryCodes?: string[]; problems?: FieldProblems },
  ) {
    const { firmId, personId, mustEnrol } = signedIn(request);
    const person = await inFirm(db, firmId, (tx) => readTwoStep(tx, personId));
    const isOn = person?.totpConfirmedAt !== null;
    const secret = person && !isOn ? openedSecret(config.dataFolder, person) : undefined;
    return sendPage(request, reply, "two-step", {
      title: say(request.language, "account.twoStep"),
      ...{ ...shown, isOn, mustEnrol, secret },
      picture: secret && person ? pictureOf(enrolmentUri(secret, person.email)) : undefined,
    });
  }
};

/** A QR code (ISO/IEC 18004) as SVG, dark on light in either look: readers want it so. */
function pictureOf(text: string): string {
  const code = qrcode(0, "M");
  code.addData(text);
  code.make();
  return code.createSvgTag({ cellSize: 5, margin: 20, scalable: false });
}
