/** Units in the depot. The first of the spares goes out in the exchange of a pack. */
export const PALLETS = {
  "pallet-1": {
    receivedDaysAgo: 63,
    firstNumber: 77_201,
    codes: ["DRYSTONE-S4", "DRYSTONE-S4", "DRYSTONE-S4", "MILLRACE-H5"],
  },
  "pallet-2": {
    receivedDaysAgo: 1,
    firstNumber: 88_403,
    codes: ["BRACKEN-W9", "BRACKEN-W9", "BRACKEN-W5", "BRACKEN-W5", "TOLLGATE-A7"],
  },
  spares: { receivedDaysAgo: 120, firstNumber: 66_107, codes: ["BRACKEN-W5", "TOLLGATE-A7"] },
} as const;
