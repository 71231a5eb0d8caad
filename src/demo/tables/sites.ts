// Sixty invented sites. What stands at each, and whether its packs are behind the required
// firmware.
import type { TownKey } from "./towns.ts";

/** What is, or will be, installed: codes of product models, battery packs first. */
export const SETUPS = {
  none: [],
  oneWall: ["BRACKEN-W5", "TOLLGATE-A4"],
  twoWall: ["BRACKEN-W5", "BRACKEN-W5", "MILLRACE-H5"],
  twoWide: ["BRACKEN-W9", "BRACKEN-W9", "MILLRACE-H8", "LANTERN-G1"],
  lowStack: ["DRYSTONE-S4", "DRYSTONE-S4", "DRYSTONE-S4", "MILLRACE-H5"],
  highStack: [
    "DRYSTONE-S6",
    "DRYSTONE-S6",
    "DRYSTONE-S6",
    "DRYSTONE-S6",
    "MILLRACE-H8",
    "LANTERN-G1",
  ],
} as const satisfies Record<string, readonly string[]>;
export type Setup = keyof typeof SETUPS;

export interface DemoSite {
  key: string;
  customer: string;
  town: TownKey;
  addressLine: string;
  supply: "TN-S" | "TN-C-S" | "TT";
  setup: Setup;
  /** The overdue release is still to be installed here. */
  behind: boolean;
  name?: string;
}

type Row = [
  key: string,
  customer: string,
  town: TownKey,
  addressLine: string,
  supply: DemoSite["supply"],
  setup: Setup,
  more?: { behind?: true; name?: string },
];

const BEHIND = { behind: true } as const;

const ROWS: Row[] = [
  [
    "depot",
    "Copperbeck Home Storage",
    "owlsbarrow",
    "Unit 4, Tanpit Yard",
    "TN-S",
    "none",
    { name: "Depot" },
  ],
  ["o1", "Alys Thornlee", "owlsbarrow", "3 Kiln Rise", "TN-C-S", "oneWall", BEHIND],
  ["o2", "Benedek Farrow-Pitt", "owlsbarrow", "11 Kiln Rise", "TN-C-S", "twoWall"],
  ["o3", "Cordelia Wintle", "owlsbarrow", "Rookery Bank", "TT", "lowStack", { name: "Old dairy" }],
  ["o4", "Drystan Pocock-Hale", "owlsbarrow", "28 Cooper's Drove", "TN-S", "oneWall"],
  ["o5", "Elspeth Marrack", "owlsbarrow", "5 Withy Close", "TN-C-S", "twoWide"],
  ["o6", "Farid Quennell", "owlsbarrow", "9 Withy Close", "TN-C-S", "oneWall"],
  ["m1", "Greta Sandover", "marlhampton", "17 Chalkpit Lane", "TN-C-S", "twoWall", BEHIND],
  ["m2", "Hamish Underley", "marlhampton", "2 Mason's Yard", "TN-S", "highStack"],
  ["m3", "Isolde Carveth", "marlhampton", "40 Downs View", "TN-C-S", "oneWall"],
  ["m4", "Jonty Brackstone", "marlhampton", "42 Downs View", "TN-C-S", "lowStack"],
  ["m5", "Kezia Holloway-Dunn", "marlhampton", "6 Saddler's Row", "TN-S", "twoWide"],
  [
    "m6",
    "Marlhampton Almshouses",
    "marlhampton",
    "1 Almshouse Court",
    "TN-S",
    "highStack",
    { name: "East wing" },
  ],
  [
    "m7",
    "Marlhampton Almshouses",
    "marlhampton",
    "7 Almshouse Court",
    "TN-S",
    "twoWall",
    { name: "West wing" },
  ],
  ["s1", "Lowen Tregarrick", "sturmead", "8 Mere Lane", "TN-C-S", "oneWall", BEHIND],
  ["s2", "Maelys Ottaway", "sturmead", "19 Mere Lane", "TN-C-S", "lowStack"],
  ["s3", "Nuno Pettifer", "sturmead", "1 Sluice Cottages", "TT", "twoWall", BEHIND],
  ["s4", "Ottilie Garraway", "sturmead", "2 Sluice Cottages", "TT", "oneWall"],
  ["s5", "Peregrine Lusty", "sturmead", "Heron House", "TN-S", "highStack"],
  ["s6", "Quilla Ambrose-Teal", "sturmead", "33 Causeway Road", "TN-C-S", "twoWide"],
  ["h1", "Rhys Oldacre", "hazeldip", "14 Nutwood Hill", "TN-C-S", "twoWall", BEHIND],
  ["h2", "Saffron Idle", "hazeldip", "22 Nutwood Hill", "TN-C-S", "oneWall"],
  ["h3", "Tobiah Wraxhall", "hazeldip", "Coppice End", "TT", "lowStack"],
  ["h4", "Ursula Penketh", "hazeldip", "7 Hurdlemaker's Lane", "TN-S", "oneWall"],
  ["h5", "Viktor Salisden", "hazeldip", "10 Hurdlemaker's Lane", "TN-S", "twoWide"],
  [
    "l1",
    "Longwithy Farm Cottages",
    "longwithy",
    "1 Osier Row",
    "TN-C-S",
    "oneWall",
    { behind: true, name: "Cottage 1" },
  ],
  [
    "l2",
    "Longwithy Farm Cottages",
    "longwithy",
    "2 Osier Row",
    "TN-C-S",
    "oneWall",
    { behind: true, name: "Cottage 2" },
  ],
  [
    "l3",
    "Longwithy Farm Cottages",
    "longwithy",
    "Osier Farm",
    "TT",
    "highStack",
    { name: "Grain barn" },
  ],
  ["l4", "Winifred Askew-Moor", "longwithy", "4 Baskethouse Lane", "TN-C-S", "lowStack"],
  ["l5", "Xanthe Brookwell", "longwithy", "25 Baskethouse Lane", "TN-C-S", "twoWall"],
  ["n1", "Yestin Corrigall", "nettlecote", "12 Fold Street", "TN-S", "oneWall", BEHIND],
  ["n2", "Zillah Northmore", "nettlecote", "15 Fold Street", "TN-S", "lowStack"],
  ["n3", "Abel Hathersett", "nettlecote", "The Shippon", "TT", "twoWide"],
  ["n4", "Briony Calloway-Stead", "nettlecote", "3 Weaver's Ground", "TN-C-S", "twoWall"],
  ["n5", "Conall Rudge", "nettlecote", "9 Weaver's Ground", "TN-C-S", "none"],
  ["f1", "Demelza Strickett", "sallowford", "6 Ferry Green", "TN-C-S", "twoWall"],
  ["f2", "Emrys Vallance-Poole", "sallowford", "18 Ferry Green", "TN-C-S", "lowStack"],
  ["f3", "Florian Medlicott", "sallowford", "2 Eelhouse Lane", "TT", "oneWall"],
  ["f4", "Gwendolen Tarrant-Ashe", "sallowford", "Mill Leat", "TN-S", "highStack"],
  ["f5", "Hyacinth Bellringer", "sallowford", "31 Levels Road", "TN-C-S", "none"],
  ["p1", "Ivo Merriwick", "pennyfold", "5 Sheepwalk", "TN-C-S", "oneWall"],
  ["p2", "Jessamy Lockyear", "pennyfold", "21 Sheepwalk", "TN-C-S", "twoWide"],
  ["p3", "Kit Standerwick", "pennyfold", "Barrow Lodge", "TN-S", "lowStack"],
  ["p4", "Leander Crowhurst-Bell", "pennyfold", "8 Ropewalk Terrace", "TN-C-S", "none"],
  ["r1", "Aurore Delmontel", "ormelande", "12 rue des Ormes", "TT", "oneWall", BEHIND],
  ["r2", "Bastien Corvellec", "ormelande", "27 rue des Ormes", "TT", "twoWall"],
  ["r3", "Clémence Havrin", "ormelande", "4 chemin du Lavoir", "TT", "lowStack"],
  ["r4", "Donatien Querré", "ormelande", "La Grande Haie", "TT", "highStack", { name: "Pressoir" }],
  ["c1", "Edmée Taillandon", "courlis", "3 impasse du Marais", "TT", "twoWall", BEHIND],
  ["c2", "Fulbert Osmonteau", "courlis", "9 route des Prés", "TT", "oneWall"],
  ["c3", "Ghislaine Perrochet", "courlis", "16 route des Prés", "TT", "twoWide"],
  ["c4", "Hervelin Marescot", "courlis", "La Barrière", "TT", "lowStack"],
  ["b1", "Isaure Lanquetin", "breuvigny", "1 place du Puits", "TT", "oneWall", BEHIND],
  ["b2", "Josselin Vautrière", "breuvigny", "8 rue du Four", "TT", "twoWide"],
  ["b3", "Katell Ferronnier", "breuvigny", "15 rue du Four", "TT", "lowStack"],
  [
    "b4",
    "Gîtes de Breuvigny",
    "breuvigny",
    "Le Clos aux Merles",
    "TT",
    "highStack",
    { name: "Gîte no. 1" },
  ],
  ["a1", "Ludivine Sauvageon", "aubrin", "5 chemin des Haies", "TT", "twoWall", BEHIND],
  ["a2", "Mathurin Beauclair", "aubrin", "11 chemin des Haies", "TT", "oneWall"],
  ["a3", "Nolwenn Chastagnier", "aubrin", "La Croix Blanchet", "TT", "twoWide"],
  ["a4", "Gîtes de Breuvigny", "aubrin", "2 rue de la Forge", "TT", "none", { name: "Gîte no. 2" }],
];

export const SITES: readonly DemoSite[] = ROWS.map(
  ([key, customer, town, addressLine, supply, setup, more]) => ({
    key,
    customer,
    town,
    addressLine,
    supply,
    setup,
    behind: more?.behind ?? false,
    ...(more?.name ? { name: more.name } : {}),
  }),
);
