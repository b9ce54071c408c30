// Asks the program. Every figure comes from there; nothing is computed here.

async function ask(path, options = {}) {
  let answer;
  try {
    answer = await fetch(path, options);
  } catch {
    throw new Error('captally no longer answers. It may have been stopped; start captally review again. What you settled is kept.');
  }
  const value = answer.status === 204 ? null : await answer.json();
  if (!answer.ok) throw new Error(value.error);
  return value;
}

const post = (path, body = {}) => ask(path, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) });
const of = (id) => `/api/session/${encodeURIComponent(id)}`;

export const start = () => ask('/api/start');
export const demo = () => post('/api/demo');
export const open = (file) => ask(`/api/open?name=${encodeURIComponent(file.name)}`, { method: 'POST', headers: { 'Content-Type': 'application/octet-stream' }, body: file });
export const session = (id) => ask(of(id));
export const words = (id) => ask(`${of(id)}/words`);
export const decide = (id, decision) => post(`${of(id)}/decide`, decision);
export const undo = (id) => post(`${of(id)}/undo`);
export const here = () => post('/api/here');
export const download = (id, form) => `${of(id)}/download/${form}`;
