import { inFirm } from "../../db/scope.ts";
import { editedMeanwhile, matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { senderAddress } from "./compose.ts";
import { MailSettingsEdit, MailSettingsReply } from "./schemas.ts";
import { editMailSettings, type MailSettings, readMailSettings } from "./settings-store.ts";

const TAGS = ["Mail"];

export const mailSettingsRoutes: Feature = async (app, { db, config }) => {
  const shown = (row: MailSettings) => {
    const { quietFrom: from, quietTo: to, ...others } = row;
    return {
      ...others,
      quietHours: from !== null && to !== null ? { from, to } : null,
      senderAddress: senderAddress(config),
      mailServer: config.SMTP_URL !== undefined,
    };
  };

  app.get("/api/v1/mail/settings", {
    schema: {
      operationId: "readMailSettings",
      summary: "Read which mails go to customers, when, and in whose name",
      tags: TAGS,
      response: { 200: MailSettingsReply, ...problems(401, 403) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, readMailSettings);
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.patch("/api/v1/mail/settings", {
    schema: {
      operationId: "editMailSettings",
      summary: "Change which mails go to customers, when, and in whose name",
      tags: TAGS,
      body: MailSettingsEdit,
      response: { 200: MailSettingsReply, ...problems(401, 403, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        editMailSettings(tx, version, columnsOf(request.body)),
      );
      if (!row) throw editedMeanwhile();
      sendETag(reply, row.version);
      return shown(row);
    },
  });
};

export function columnsOf({ quietHours, ...others }: MailSettingsEdit) {
  const given = Object.entries(others).filter(([, value]) => value !== undefined);
  return {
    ...(Object.fromEntries(given) as Partial<MailSettings>),
    ...(quietHours === undefined
      ? {}
      : { quietFrom: quietHours?.from ?? null, quietTo: quietHours?.to ?? null }),
  };
}
