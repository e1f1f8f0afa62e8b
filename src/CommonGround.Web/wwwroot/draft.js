// Keeps what somebody types on their own device until it is saved, so that a lost connection loses nothing.
export function keep(key, text) { try { if (text) localStorage.setItem(key, text); else localStorage.removeItem(key); } catch { /* storage is full or switched off: the page still works */ } }
export function kept(key) { try { return localStorage.getItem(key); } catch { return null; } }
export async function save(name, stream) { const link = document.createElement('a'); link.href = URL.createObjectURL(new Blob([await stream.arrayBuffer()])); link.download = name; link.click(); setTimeout(() => URL.revokeObjectURL(link.href), 60000); }
export function focus(id) { document.getElementById(id)?.focus(); }
export function width(id) { return document.getElementById(id)?.getBoundingClientRect().width ?? 0; }
