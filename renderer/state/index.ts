export {
  type ApplyOptions,
  type BookState,
  BookStore,
  type ChangeListener,
  type ChangeOrigin,
} from './bookStore.ts';
export { FontStore, type InstalledFace, installedFaces } from './fontStore.ts';
export type { HomeState, HomeStore } from './homeStore.ts';
export { useBook, useBookState, useOutline, usePlace, useSettings, useSteadyOutline } from './hooks.ts';
export { hostOver, type Line, LoopbackLine, lineOfWindow } from './hostClient.ts';
export { newId } from './ids.ts';
export { useLasting, useLately } from './late.ts';
export { LayoutLink } from './layoutLink.ts';
export { type LayoutState, LayoutStore } from './layoutStore.ts';
export { nameOfRow, outlineOf, type SectionRow, titleOf } from './outline.ts';
export { OutlineStore } from './outlineStore.ts';
export { DESKS, type DeskName, type PlaceState, PlaceStore, takesFocus } from './placeStore.ts';
export { type PressState, PressStore, type RunningExport, shareDone, timeLeft } from './pressStore.ts';
export { SettingsStore } from './settingsStore.ts';
export { type SinceExport, SinceExportStore } from './sinceExport.ts';
export { type Readable, Store, useStore } from './store.ts';
export { createWorkbench, useWorkbench, type Workbench, WorkbenchProvider } from './workbench.ts';
