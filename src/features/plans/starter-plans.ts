// Plans that a firm can begin with. Each is a file of its own with a plan/1 document; the figures
// in them are the firm's to check against its makers' instructions and its local code.
import backupGateway from "./starters/backup-gateway.json" with { type: "json" };
import firmwareVisit from "./starters/firmware-visit.json" with { type: "json" };
import goodsIn from "./starters/goods-in.json" with { type: "json" };
import hybridInverter from "./starters/hybrid-inverter.json" with { type: "json" };
import periodicInspection from "./starters/periodic-inspection.json" with { type: "json" };
import pvStrings from "./starters/pv-strings.json" with { type: "json" };
import removal from "./starters/removal.json" with { type: "json" };
import siteSurvey from "./starters/site-survey.json" with { type: "json" };
import stackedBank from "./starters/stacked-bank.json" with { type: "json" };
import swap from "./starters/swap.json" with { type: "json" };
import wallMountedPacks from "./starters/wall-mounted-packs.json" with { type: "json" };

export interface StarterPlan {
  /** As the interface calls it. */
  name: string;
  /** Code of the plan that is copied from it, unless another is given. */
  code: string;
  description: string;
  /** Kinds of job that it is made for. */
  jobKinds: string[];
  /** A plan/1 document. */
  document: { title: string; stages: { items: object[] }[]; [member: string]: unknown };
}

/** In the order of a job's life. */
export const STARTER_PLANS: readonly StarterPlan[] = [
  siteSurvey,
  goodsIn,
  wallMountedPacks,
  stackedBank,
  hybridInverter,
  backupGateway,
  pvStrings,
  firmwareVisit,
  periodicInspection,
  swap,
  removal,
];
