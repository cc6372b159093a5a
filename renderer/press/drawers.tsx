/** The drawers that open from everywhere. */
export function Drawers() {
  return null;
}
