/** The system's own file dialogs. In: what a file is wanted for; out: the path that the person chose, or null. */
import type * as Electron from 'electron';
import type { CallRequest } from '#host';

type Wanted = CallRequest<'choosePath'>;
type Purpose = Wanted['purpose'];

const BOOKS = [{ name: 'Books', extensions: ['reglet'] }];
const DESIGNS = [{ name: 'Designs', extensions: ['json'] }];

const FILTERS: Readonly<Record<Exclude<Purpose, 'folder'>, Electron.FileFilter[]>> = {
  openBook: BOOKS,
  saveBook: BOOKS,
  openManuscript: [{ name: 'Manuscripts', extensions: ['docx'] }],
  openPicture: [{ name: 'Pictures', extensions: ['png', 'jpg', 'jpeg', 'gif', 'svg'] }],
  openDesign: DESIGNS,
  saveDesign: DESIGNS,
};

export async function choosePath(
  dialog: Electron.Dialog,
  window: Electron.BrowserWindow,
  { purpose, suggested }: Wanted,
): Promise<string | null> {
  const place = suggested === null ? {} : { defaultPath: suggested };
  if (purpose === 'saveBook' || purpose === 'saveDesign') {
    const { canceled, filePath } = await dialog.showSaveDialog(window, { ...place, filters: FILTERS[purpose] });
    return canceled || filePath === '' ? null : filePath;
  }
  const { canceled, filePaths } = await dialog.showOpenDialog(
    window,
    purpose === 'folder'
      ? { ...place, properties: ['openDirectory', 'createDirectory'] }
      : { ...place, properties: ['openFile'], filters: FILTERS[purpose] },
  );
  return canceled ? null : (filePaths[0] ?? null);
}
