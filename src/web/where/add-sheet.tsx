/** One tap: a photograph or drawing of the user's own becomes a sheet. Its name is the file's until somebody gives one. */
import { type ReactNode, type RefObject, useRef } from 'react';
import { recording } from '../../journal/commands.ts';
import { useOpenJob } from '../state/use-job.tsx';

/** Keeps the picture, then records it as a photograph and as a sheet; gives the sheet's id. */
export function useAddSheet(): (file: File) => Promise<string> {
  const { keepPhoto, record, snapshot } = useOpenJob();
  return async (file) => {
    const photo = await keepPhoto(file);
    const sheet = `sheet-${photo.hash.slice(0, 10)}`;
    const name = sheetName(file.name, snapshot.state.sheets.size + 1);
    record(
      recording('photo-taken', { ...photo, of: ['job'], caption: name }),
      recording('sheet-added', { sheet, name, photo: photo.hash }),
    );
    return sheet;
  };
}

/** `bow-port_01.jpg` -> `bow port 01`; a camera's own number says nothing. */
export function sheetName(file: string, number: number): string {
  const words = file
    .replace(/\.[a-z0-9]{2,5}$/i, '')
    .replace(/[_-]+/g, ' ')
    .trim();
  return words === '' || /^(img|dsc|image|photo|pxl|dscn|mvimg)?[ \d()]*$/i.test(words) ? `Sheet ${number}` : words;
}

export interface PickPictureProps {
  readonly className: string;
  readonly children: ReactNode;
  readonly onPicture: (file: File) => void;
  readonly field?: RefObject<HTMLInputElement | null>;
}

/** A key that opens the camera or the files. */
export function PickPicture({ className, children, onPicture, field }: PickPictureProps) {
  const own = useRef<HTMLInputElement>(null);
  const input = field ?? own;
  return (
    <>
      <button type="button" className={className} onClick={() => input.current?.click()}>
        {children}
      </button>
      <input
        ref={input}
        type="file"
        accept="image/*"
        hidden
        onChange={(e) => {
          const file = e.target.files?.[0];
          e.target.value = '';
          if (file) onPicture(file);
        }}
      />
    </>
  );
}
