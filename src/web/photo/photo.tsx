/**
 * One photograph wherever it is now: the copy on this device, else the shop's machine's, else a drawn frame that says it
 * is not here yet. The place is kept, so nothing jumps when it comes.
 */
import { useEffect, useState } from 'react';
import { fetchPhoto, photoUrl } from '../state/client.ts';
import { localPhoto } from '../state/keep-media.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { wayNow } from '../state/way.ts';

type Source = { readonly is: 'looking' } | { readonly is: 'there'; readonly url: string } | { readonly is: 'away' };

export function Photo({
  hash,
  size,
  alt,
  className,
}: {
  readonly hash: string;
  readonly size: 'original' | 'print' | 'thumb';
  readonly alt: string;
  readonly className?: string;
}) {
  const { job } = useOpenJob();
  const [source, setSource] = useState<Source>({ is: 'looking' });
  useEffect(() => {
    let url: string | null = null;
    let current = true;
    setSource({ is: 'looking' });
    void localPhoto(job.id, hash)
      .catch(() => null)
      // At another address a picture cannot bring its token by itself.
      .then(
        async (here) => here ?? (wayNow().address === '' ? null : ((await fetchPhoto(job.id, hash, size)) ?? 'away')),
      )
      .then((blob) => {
        if (!current) return;
        if (blob === 'away') return setSource({ is: 'away' });
        if (blob !== null) url = URL.createObjectURL(blob);
        setSource({ is: 'there', url: url ?? photoUrl(job.id, hash, size) });
      });
    return () => {
      current = false;
      if (url !== null) URL.revokeObjectURL(url);
    };
  }, [job.id, hash, size]);
  if (source.is !== 'there') return <Frame alt={alt} className={className} said={source.is === 'away'} />;
  return (
    <img
      className={className}
      src={source.url}
      alt={alt}
      loading="lazy"
      decoding="async"
      onError={() => setSource({ is: 'away' })}
    />
  );
}

function Frame({
  alt,
  className,
  said,
}: {
  readonly alt: string;
  readonly className: string | undefined;
  readonly said: boolean;
}) {
  const words = said ? 'not yet copied to the office' : '';
  return (
    <svg className={className} viewBox="0 0 160 120" role="img" aria-label={said ? `${alt}, ${words}` : alt}>
      <rect
        x="2"
        y="2"
        width="156"
        height="116"
        fill="none"
        stroke="currentColor"
        strokeDasharray={said ? '6 4' : ''}
      />
      <path d="M2 2 L158 118 M158 2 L2 118" stroke="currentColor" strokeOpacity="0.25" fill="none" />
      {said && (
        <text x="80" y="58" fontSize="11" textAnchor="middle" fill="currentColor">
          <tspan x="80">not yet copied</tspan>
          <tspan x="80" dy="14">
            to the office
          </tspan>
        </text>
      )}
    </svg>
  );
}
