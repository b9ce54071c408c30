// Asks the program. Every figure comes from there; nothing is computed here.

async function ask(path, options = {}) {
  let answer;
  let value = null;
  try {
    answer = await fetch(path, options);
    if (answer.status !== 204) value = await answer.json();
  } catch {
    throw new Error('captally no longer answers. It may have been stopped; start captally review again. What you settled is kept.');
  }
  if (!answer.ok) throw new Error(value.error);
  return value;
}

const post = (path, body = {}) => ask(path, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) });
const of = (id) => `/api/session/${encodeURIComponent(id)}`;

export const start = () => ask('/api/start');
export const demo = () => post('/api/demo');
/** Opens a file; it may be on a stick that is gone by now. */
export async function open(file) {
  const body = await file.arrayBuffer().catch(() => { throw new Error(`${file.name} cannot be read. It may have been moved or deleted, or it is a folder.`); });
  return ask(`/api/open?name=${encodeURIComponent(file.name)}`, { method: 'POST', headers: { 'Content-Type': 'application/octet-stream' }, body });
}
export const session = (id) => ask(of(id));
export const words = (id) => ask(`${of(id)}/words`);
export const decide = (id, decision) => post(`${of(id)}/decide`, decision);
/** Sends a decision from a page that is being left. */
export const decideLeaving = (id, decision) => fetch(`${of(id)}/decide`, { method: 'POST', keepalive: true, headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(decision) });
export const undo = (id) => post(`${of(id)}/undo`);
export const here = () => post('/api/here');
export const download = (id, form) => `${of(id)}/download/${form}`;
