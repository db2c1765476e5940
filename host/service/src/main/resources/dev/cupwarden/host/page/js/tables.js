// The tables of limits and alerts as controllers publish them with their set-up, by code. Until one has, a code stands for its name.

const limits = new Map();
const alerts = new Map();

/** Takes over what a set-up tells; a controller of an earlier version tells nothing. */
export function learn(setup) {
  for (const limit of setup?.limits ?? []) limits.set(limit.code, limit);
  for (const alert of setup?.alerts ?? []) alerts.set(alert.code, alert);
}

const spelled = (code) => code.replaceAll('-', ' ');
export const limitOf = (code) => limits.get(code);
export const alertOf = (code) => alerts.get(code);
export const nameOfLimit = (code) => limits.get(code)?.name ?? spelled(code);
export const nameOfAlert = (code) => alerts.get(code)?.name ?? spelled(code).replace(/^./, (first) => first.toUpperCase());

/** Codes of the limits that a person may lift for one dose, in their order. */
export const liftable = () => [...limits.values()].filter((limit) => limit.dose === 'lifts').map((limit) => limit.code);
export const isOnFeed = (code) => limits.get(code)?.on === 'feed';
/** Whether water of that cause goes through the limit: `rescue`, `flush`, `prime`… */
export const passes = (cause, code) => limits.get(code)?.passed_by.includes(cause) ?? false;

/** Its place among alerts that stand; what no table knows comes last. */
export const rankOf = (code) => alerts.get(code)?.rank ?? alerts.size;
