/**
 * What a key for programs may be made for, and what each opens: a key reaches these operations and
 * no other, whatever its maker may do.
 */
export const SCOPES = {
  "read:fleet": [
    "listProductModels",
    "readProductModel",
    "listFirmwareReleases",
    "readFirmwareRelease",
    "readFirmwareTarget",
    "readFirmwareRollout",
    "listFirmwareRings",
    "countFirmwareDue",
    "readFleetCounts",
  ],
  "read:due": ["listFirmwareDue", "countFirmwareDue", "exportDueList", "readFirmwareSteps"],
  "read:units": ["listUnits", "readUnit", "readUnitLife"],
  "read:jobs": ["listJobs", "readJob", "listVisits", "readVisit"],
  "read:customers": ["listCustomers", "readCustomer", "listSites", "readSite"],
  "write:readings": ["addFirmwareReading"],
} as const satisfies Readonly<Record<string, readonly string[]>>;
