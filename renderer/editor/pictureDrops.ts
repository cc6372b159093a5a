/**
 * Pictures dropped into the text from outside the window. In: the editor's view; out: the file with the place that it was
 * dropped at, or the figure that it was dropped on. A line shows where it would come to stand.
 */
import { Fragment, Slice } from 'prosemirror-model';
import { dropPoint } from 'prosemirror-transform';
import type { EditorView } from 'prosemirror-view';
import { schema } from '#book';
import { bringsPictures, isPicture } from '../ui/index.ts';
import './figures.css';

export interface DroppedPicture {
  readonly file: File;
  /** The figure that it was dropped on, or null. */
  readonly figure: string | null;
  /** Where it was dropped else. */
  readonly at: number | null;
}

/** Hears pictures dropped inside an element around the editor until the returned function is called. */
export function onPictureDrop(
  around: HTMLElement,
  view: EditorView,
  take: (dropped: DroppedPicture) => void,
): () => void {
  const landing = document.createElement('div');
  landing.className = 'copy-landing';
  landing.hidden = true;
  around.append(landing);
  const over = (event: DragEvent): void => {
    if (!bringsPictures(event)) return;
    event.preventDefault();
    showLanding(landing, around, view, event);
  };
  const leave = (): void => {
    landing.hidden = true;
  };
  const drop = (event: DragEvent): void => {
    leave();
    const file = [...(event.dataTransfer?.files ?? [])].find(({ type }) => isPicture(type));
    if (!file) return;
    // The text has it: neither the editor nor the window is to take it for something else.
    event.preventDefault();
    event.stopPropagation();
    const figure = figureUnder(view, event);
    take({ file, figure, at: figure === null ? placeUnder(view, event) : null });
  };
  around.addEventListener('dragover', over, true);
  around.addEventListener('dragleave', leave, true);
  around.addEventListener('drop', drop, true);
  return () => {
    around.removeEventListener('dragover', over, true);
    around.removeEventListener('dragleave', leave, true);
    around.removeEventListener('drop', drop, true);
    landing.remove();
  };
}

/** The place between blocks that is nearest to a point. */
function placeUnder(view: EditorView, { clientX, clientY }: DragEvent): number | null {
  const under = view.posAtCoords({ left: clientX, top: clientY });
  if (!under) return null;
  const figure = schema.nodes.figure.create();
  return dropPoint(view.state.doc, under.pos, new Slice(Fragment.from(figure), 0, 0));
}

function figureUnder(view: EditorView, { target }: DragEvent): string | null {
  const element = target instanceof Element ? target.closest('figure') : null;
  if (!element || !view.dom.contains(element)) return null;
  const $at = view.state.doc.resolve(view.posAtDOM(element, 0));
  for (let depth = $at.depth; depth > 0; depth--) {
    if ($at.node(depth).type === schema.nodes.figure) return String($at.node(depth).attrs['id']);
  }
  return $at.nodeAfter?.type === schema.nodes.figure ? String($at.nodeAfter.attrs['id']) : null;
}

function showLanding(landing: HTMLElement, around: HTMLElement, view: EditorView, event: DragEvent): void {
  const place = figureUnder(view, event) === null ? placeUnder(view, event) : null;
  landing.hidden = place === null;
  if (place === null) return;
  const top = view.coordsAtPos(Math.min(place, view.state.doc.content.size), -1).bottom;
  landing.style.top = `${top - around.getBoundingClientRect().top}px`;
}
