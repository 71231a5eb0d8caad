/** A person's visits in their own calendar program. */
export const calendar = {
  "calendar.link": "My calendar",
  "calendar.title": "Your visits in your own calendar",
  "calendar.note":
    "A secret address lets your calendar program read your visits. It asks again by itself, so " +
    "moved and cancelled visits show there too.",
  "calendar.made": "Your new address",
  "calendar.once":
    "Copy it now: it is shown this once. Whoever has it reads where you will be; give it to " +
    "nobody.",
  "calendar.address": "Address",
  "calendar.how":
    "In your calendar program choose to subscribe to a calendar by its address, and paste it " +
    "there.",
  "calendar.now": "Your calendar address",
  "calendar.since": "Made",
  "calendar.fetched": "Last read by a calendar program",
  "calendar.never": "not yet",
  "calendar.replace": "Make a new address",
  "calendar.end": "End the address",
  "calendar.replaceNote": "A new address ends the old one at once; so do that if a phone is lost.",
  "calendar.none": "You have no calendar address.",
  "calendar.noneWayOut": "Make one and give it to your calendar program.",
  "calendar.make": "Make a calendar address",
  "calendar.what":
    "It holds the visits you are booked for from 30 days back to 180 days ahead: hours, place, " +
    "crew and the job’s reference; no customer’s name, telephone or note.",
  "calendar.name": "{person}, visits for {firm}",
  "calendar.cancelled": "Cancelled: {what}",
  "calendar.crew": "Crew: {crew}",
} as const;
