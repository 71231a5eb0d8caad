// Every mechanical calculation, in one list that pages, plans and documents draw on.
import { anchorCheck } from "./anchor-check.ts";
import { boltProofLoad, boltTorqueShortForm } from "./bolt-short-form.ts";
import { boltPreload, boltTorque } from "./bolt-torque.ts";
import { wallLoadShear, wallLoadTension } from "./wall-load.ts";

export const MECHANICAL_CALCULATIONS = [
  wallLoadShear,
  wallLoadTension,
  anchorCheck,
  boltPreload,
  boltTorque,
  boltTorqueShortForm,
  boltProofLoad,
] as const;
