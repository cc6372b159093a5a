/** A picture in small. In: a record that is not in the book yet, or where the book has it; out: an image of the page. */
import { useEffect, useState } from 'react';
import type { AssetRecord } from '#book';

export type PictureSource = AssetRecord | { readonly address: string };

export function PicturePreview({ source }: { readonly source: PictureSource }) {
  const made = useAddress('base64' in source ? source : null);
  const address = 'address' in source ? source.address : made;
  // Its name stands beside it, and what it shows is what the dialog asks for.
  return <div className="figure-preview">{address !== null && <img src={address} alt="" />}</div>;
}

/** What is not in the book yet gets an address for as long as it is shown. */
function useAddress(record: AssetRecord | null): string | null {
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    if (!record) return undefined;
    const bytes = Uint8Array.from(atob(record.base64), (each) => each.charCodeAt(0));
    const made = URL.createObjectURL(new Blob([bytes], { type: record.mediaType }));
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [record]);
  return address;
}
