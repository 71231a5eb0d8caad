export const crews = {
  "crews.link": "Crews",
  "crews.title": "Crews",
  "crews.note":
    "Installers who are sent out together. A visit books the crew and each of its people.",
  "crews.crew": "Crew",
  "crews.members": "People",
  "crews.nobody": "nobody yet",
  "crews.none": "There is no crew.",
  "crews.noneWayOut": "Make one up below: a name and the installers in it.",
  "crews.disbanded": "Disbanded:",
  "crews.new": "A new crew",
  "crews.add": "Make up the crew",
  "crews.name": "Name",
  "crews.noInstallers": "Nobody with the role installer signs in yet.",
  "crews.all": "All crews",
  "crews.active": "Goes out; without the tick it is disbanded",
} as const;
