import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { BANK_CAUTION } from "../../domain/bank/bank-settings.ts";
import { Problem } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { orRefusal } from "../changes/or-refusal.ts";
import { findSite } from "../sites/store.ts";
import { changeBank } from "./change-bank.ts";
import { drawnSettings } from "./drawn-settings.ts";
import { NewBank } from "./schemas.ts";
import { type BankRow, mapOf, readBankRow, type SetBank, settingsOf } from "./settings.ts";
import { SettingsQuery } from "./settings-schemas.ts";

export const bankPages: Feature = async (app, { db }) => {
  app.get("/banks/:id", {
    schema: { operationId: "bankPage", hide: true, params: IdParams, querystring: SettingsQuery },
    handler: async (request, reply) => {
      const { bank, site } = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const row = await readBankRow(tx, request.params.id);
        return { bank: row, site: await findSite(tx, row.siteId) };
      });
      const set = settingsOf(bank, request.query.protocol);
      return sendPage(request, reply, "bank", {
        title: say(request.language, "bank.title", { name: bank.name }),
        bank,
        site,
        protocols: protocolsOf(bank, set),
        caution: BANK_CAUTION,
        ...(set instanceof Problem ? { problem: set.message } : shown(set)),
        mayEdit: RENAMING.some((role) => signedIn(request).roles.includes(role)),
      });
    },
  });

  app.post("/banks/:id", {
    schema: { operationId: "renameBankForm", hide: true, params: IdParams, body: RenameForm },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { name, version } = request.body;
      return orRefusal(request, reply, `/banks/${id}`, async () => {
        await inFirm(db, signedIn(request).firmId, (tx) => changeBank(tx, id, version, { name }));
        return `/banks/${id}`;
      });
    },
  });
};

const RENAMING = ["owner", "office", "installer"] as const;
const RenameForm = z.object({
  name: NewBank.shape.name,
  version: z.coerce.number().int(),
});

/** What there is to choose from, also where the choice so far leads nowhere. */
function protocolsOf(bank: BankRow, set: SetBank | Problem) {
  const map = mapOf(bank);
  if (map instanceof Problem) return [];
  const chosen = set instanceof Problem ? undefined : set.protocol.id;
  return map.protocols.map(({ id, name }) => ({ id, name, isChosen: id === chosen }));
}

function shown(set: SetBank) {
  return {
    set: true,
    protocol: set.protocol,
    source: set.map.source,
    clashes: set.check.clashes,
    sentences: set.check.sentences,
    switches: set.map.switches.map(({ label }) => label),
    packs: set.packs.map(({ position, serial, address, settings }) => ({
      position,
      serial,
      address,
      positions: settings.map((setting) => setting.position),
    })),
    drawing: drawnSettings(set),
  };
}
