// Plans that a firm can begin with. Each is a file of its own with a plan/1 document; the figures
// in them are the firm's to check against its makers' instructions and its local code.
import firmwareVisit from "./plans/firmware-visit.json" with { type: "json" };
import goodsIn from "./plans/goods-in.json" with { type: "json" };
import hybridInverter from "./plans/hybrid-inverter.json" with { type: "json" };
import periodicInspection from "./plans/periodic-inspection.json" with { type: "json" };
import siteSurvey from "./plans/site-survey.json" with { type: "json" };
import stackedBank from "./plans/stacked-bank.json" with { type: "json" };
import wallMountedPacks from "./plans/wall-mounted-packs.json" with { type: "json" };

export interface StarterPlan {
  code: string;
  description: string;
  /** Kinds of job that it is made for. */
  jobKinds: string[];
  /** A plan/1 document. */
  document: { title: string; [member: string]: unknown };
}

export const STARTER_PLANS: readonly StarterPlan[] = [
  goodsIn,
  wallMountedPacks,
  stackedBank,
  hybridInverter,
  firmwareVisit,
  periodicInspection,
  siteSurvey,
];
