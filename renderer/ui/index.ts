export { Announcements } from './announcer.tsx';
export { type Answer, Asking, type Question, Questions } from './asking.tsx';
export { Commands, type Deed, type Deeds, useDeeds } from './commands.ts';
export {
  Button,
  type ButtonProps,
  ChoiceRow,
  Chooser,
  type ChooserProps,
  IconButton,
  type Option,
  TextInput,
  Tick,
} from './controls.tsx';
export { bringsPictures, isPicture } from './dragged.ts';
export { PathDialog } from './files/pathDialog.tsx';
export { folderOf, joinPath, nameOf, type PathPurpose } from './files/picker.ts';
export { Icon, type IconName } from './icons.tsx';
export { type KeyPlatform, type KeyPress, keysText, matchesKeys } from './keys.ts';
export { DropMenu, type MenuBlock, type MenuChoice, MenuList } from './menu.tsx';
export { Dialog, Drawer } from './overlays.tsx';
export { reachable } from './reachable.ts';
export { grouped } from './texts/common.en.ts';
export { texts } from './texts/en.ts';
export { type News, Toasts } from './toasts.tsx';
export { createTools, type Tools, ToolsProvider, useTools } from './tools.ts';
