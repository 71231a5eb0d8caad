// The tool never replaces the maker's instructions, local codes or a licensed person
// (blueprint, section 1); every figure therefore leaves with the caution that fits it.
const PREVAIL =
  "The maker's instructions, local codes and licensed practice prevail over this figure.";

export const CAUTION = {
  design: `Guidance for design and checking, never a certificate. ${PREVAIL}`,
  deadTest: `Isolate, lock off and prove dead before connecting the tester. ${PREVAIL}`,
  liveTest:
    "This test touches live parts or makes accessible metal live for a moment: a licensed person " +
    `only, stated PPE, instrument and leads rated for the circuit. ${PREVAIL}`,
  insulationTest:
    "Isolate, lock off and prove dead; disconnect electronics, batteries and surge " +
    "protection that " +
    `the test voltage would harm; let the circuit discharge before touching it. ${PREVAIL}`,
  pv:
    "A PV string is live whenever light falls on it and cannot be switched off at the module; " +
    `never open a connector under load; stated PPE. ${PREVAIL}`,
  battery:
    "A battery cannot be switched off at its terminals and can feed a very large fault current: " +
    "insulated tools, stated PPE, no jewellery; damaged cell: stop and keep clear. " +
    PREVAIL,
} as const;
