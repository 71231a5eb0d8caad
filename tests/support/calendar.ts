// Calendars as ical.js reads them.
import ICAL from "ical.js";

export function readCalendar(text: string) {
  const calendar = new ICAL.Component(ICAL.parse(text));
  const events = calendar.getAllSubcomponents("vevent").map((component) => {
    const event = new ICAL.Event(component);
    return {
      ...{ uid: event.uid, sequence: event.sequence, summary: event.summary },
      start: event.startDate.toJSDate().toISOString(),
      status: component.getFirstPropertyValue("status"),
    };
  });
  return { method: calendar.getFirstPropertyValue("method"), events };
}
