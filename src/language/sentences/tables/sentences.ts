// Every sentence that is made in English and shown, by its English template. An area has one file.

import { acceptance } from "./acceptance.ts";
import { bank } from "./bank.ts";
import { fields } from "./fields.ts";
import { instruments } from "./instruments.ts";
import { operation } from "./operation.ts";
import { plan } from "./plan.ts";
import { problems } from "./problems.ts";
import { readings } from "./readings.ts";
import { refusalsAudit } from "./refusals-audit.ts";
import { refusalsFirm } from "./refusals-firm.ts";
import { refusalsFleet } from "./refusals-fleet.ts";
import { refusalsImports } from "./refusals-imports.ts";
import { refusalsPlaces } from "./refusals-places.ts";
import { refusalsRecord } from "./refusals-record.ts";
import { refusalsWork } from "./refusals-work.ts";
import { sequence } from "./sequence.ts";
import { serials } from "./serials.ts";
import { siting } from "./siting.ts";

export const SENTENCES: Readonly<Record<string, string>> = {
  ...acceptance,
  ...siting,
  ...plan,
  ...bank,
  ...fields,
  ...instruments,
  ...problems,
  ...readings,
  ...refusalsAudit,
  ...refusalsFirm,
  ...refusalsFleet,
  ...refusalsImports,
  ...refusalsPlaces,
  ...operation,
  ...refusalsRecord,
  ...refusalsWork,
  ...sequence,
  ...serials,
};
