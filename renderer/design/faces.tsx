/** The faces of a design. In: a design; out: its choices of families, with what there is to know of each. */
import { useEffect, useMemo } from 'react';
import type { InstalledFamily } from '#host';
import { useStore, useWorkbench } from '../state/index.ts';
import { faces as words } from '../ui/texts/faces.en.ts';
import type { FieldParts } from './controls.tsx';
import { FacePicker } from './facePicker.tsx';
import { familyGroups, inFamily, lacksOf } from './familyList.ts';
import './faces.css';

export function FaceFields({ settings, designing }: FieldParts) {
  const { text, display } = settings;
  const { fonts } = useWorkbench();
  const installed = useInstalled();
  useEffect(() => void fonts.refresh(), [fonts]);
  const put = (key: string, change: Parameters<typeof designing.adjust>[0]): void => {
    designing.adjust(change, key);
    designing.seal();
  };
  return (
    <div className="face-fields">
      <FaceField
        label={words.face}
        family={text.family}
        onChange={(family) => put('face', (each) => inFamily(each, family, fonts.about(family)))}
      />
      <FaceField
        label={words.displayFace}
        family={display.family}
        onChange={(family) => put('display face', (each) => ({ ...each, display: { ...each.display, family } }))}
      />
      {installed === null && <p className="field-help">{words.looking}</p>}
    </div>
  );
}

function useInstalled(): readonly InstalledFamily[] | null {
  return useStore(useWorkbench().fonts, (families) => families);
}

interface FaceFieldProps {
  readonly label: string;
  readonly family: string;
  readonly onChange: (family: string) => void;
}

function FaceField({ label, family, onChange }: FaceFieldProps) {
  const { info } = useWorkbench();
  const installed = useInstalled();
  const groups = useMemo(() => familyGroups(info.fonts, installed, family), [info.fonts, installed, family]);
  const about = installed?.find((each) => each.family === family) ?? null;
  const bundled = info.fonts.some((each) => each.family === family && !each.fallback);
  return (
    <div className="face-field">
      <FacePicker label={label} groups={groups} value={family} onChange={onChange} />
      {about && <FamilyNotes about={about} />}
      {!about && !bundled && installed && <p className="field-problem">{words.standsIn(family)}</p>}
    </div>
  );
}

/** What the chosen family lacks, what its permission bits say, and the terms in its own words. */
function FamilyNotes({ about }: { readonly about: InstalledFamily }) {
  const { lacks, permission, licence, licenceAddress } = about;
  return (
    <div className="face-notes">
      {lacks.length > 0 && <p className="field-help">{lacksOf(lacks)}.</p>}
      <p className="field-help">
        {permission} {words.care}
      </p>
      {licence === null && licenceAddress === null ? (
        <p className="field-help">{words.noTerms}</p>
      ) : (
        <details className="face-terms">
          <summary>{words.terms}</summary>
          {licence !== null && <p>{licence}</p>}
          {licenceAddress !== null && <p>{words.termsAt(licenceAddress)}</p>}
        </details>
      )}
    </div>
  );
}
