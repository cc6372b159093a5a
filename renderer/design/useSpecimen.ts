/** Pages in a design that is tried. In: settings, an edition, a text; out: its pages, which follow what is adjusted. */
import { useEffect, useState } from 'react';
import type { EditionId } from '#base';
import type { DesignSettings } from '#design';
import type { Page } from '#page';
import { useWorkbench } from '../state/index.ts';
import type { SpecimenText } from '../worker/index.ts';
import { jsonOf } from './changes.ts';

/** Milliseconds that settings rest before their specimen is set anew: the proof goes first. */
const REST = 120;

export interface SpecimenParts {
  /** What the specimen is known by among all that are shown. */
  readonly key: string;
  readonly settings: DesignSettings;
  readonly edition: EditionId;
  /** The very same as long as it says the same. */
  readonly text: SpecimenText;
}

export function useSpecimen({ key, settings, edition, text }: SpecimenParts): readonly Page[] {
  const { link } = useWorkbench();
  const [pages, setPages] = useState<readonly Page[]>([]);
  useEffect(() => {
    const end = link.listen((reply) => {
      if (reply.kind === 'specimen' && reply.key === key) setPages(reply.pages);
    });
    const ask = (): void =>
      link.worker?.specimen({ key, edition, design: settings.id, settings: jsonOf(settings), text });
    const timer = setTimeout(ask, REST);
    return () => {
      clearTimeout(timer);
      end();
    };
  }, [link, key, settings, edition, text]);
  return pages;
}
