// Reads an iCalendar text with two npm packages. Arguments: the addresses of ical.js and of node-ical. Text in, one JSON line a package out.
import { readFileSync } from 'node:fs';

const text = readFileSync(0, 'utf8');

const ICAL = (await import(process.argv[2])).default;
const component = new ICAL.Component(ICAL.parse(text)).getFirstSubcomponent('vevent');
const event = new ICAL.Event(component);
console.log(JSON.stringify({
  uid: event.uid,
  summary: event.summary,
  place: event.location,
  sequence: event.sequence,
  start: event.startDate.toJSDate().toISOString(),
  end: event.endDate.toJSDate().toISOString(),
  stamp: component.getFirstPropertyValue('dtstamp').toJSDate().toISOString(),
}));

const nodeIcal = (await import(process.argv[3])).default;
const read = Object.values(nodeIcal.sync.parseICS(text)).find((part) => part.type === 'VEVENT');
console.log(JSON.stringify({
  uid: read.uid,
  summary: read.summary,
  place: read.location,
  sequence: Number(read.sequence),
  start: read.start.toISOString(),
  end: read.end.toISOString(),
  stamp: read.dtstamp.toISOString(),
}));
