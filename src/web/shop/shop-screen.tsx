/** The shop and what comes into it: devices and codes, and taking in photographs and parts lists that exist already. */

import type { ScreenProps } from '../off/off-screen.tsx';
import { JobSheet } from '../sheet/job-sheet.tsx';
import { useScreen } from '../state/use-screen.ts';
import { DevicesList } from './devices-list.tsx';
import { PairingCard } from './pairing-card.tsx';
import { TakeIn } from './take-in.tsx';
import { useShop } from './use-shop.ts';
import '../look/shop.css';

const KEYS = [['Tab', 'next field']] as const;
const _SHEET = 'Shop and devices';

export function ShopScreen({ theme, onTheme, jobs }: ScreenProps) {
  const _screen = useScreen();
  const _light = { theme, onTheme };
  return (
    <JobSheet
      view="shop"
      other={'Take in'}
      ofJob={[]}
      keys={KEYS}
      theme={theme}
      onTheme={onTheme}
      jobs={jobs}
      list={
        <div className="shop scroll">
          <Devices />
        </div>
      }
      draw={
        <div className="shop scroll">
          <TakeIn />
        </div>
      }
    />
  );
}

function Devices() {
  const shop = useShop();
  const { hello, devices, code, problem } = shop;
  return (
    <>
      <h1>{hello?.shop ?? 'The shop'}</h1>
      <p className="quiet">{doorWords(hello?.door, hello?.device?.name)}</p>
      {hello?.door === 'this-machine' && (
        <>
          <h2>Let a phone or tablet in</h2>
          {code !== null && <PairingCard key={code.code} code={code} />}
          {problem !== null && (
            <p className="sig-line" role="alert">
              {problem.message}. {problem.remedy}
            </p>
          )}
          <button type="button" className="key go" onClick={shop.newCode}>
            {code === null ? 'New code' : 'Another code'}
          </button>
          <h2>Devices</h2>
          {devices === null ? (
            <p className="quiet">This is one job without a shop; only this machine records in it.</p>
          ) : (
            <DevicesList devices={devices} onShut={shop.shut} />
          )}
        </>
      )}
    </>
  );
}

function doorWords(door: 'plain' | 'tls' | 'this-machine' | undefined, device: string | undefined): string {
  switch (door) {
    case undefined:
      return 'The shop’s machine does not answer now; what you record is kept here.';
    case 'this-machine':
      return 'This is the shop’s own machine. Whoever sits here lets devices in and shuts them out.';
    case 'plain':
      return `“${device ?? 'This device'}” is paired and records while it is connected. To work without network, open the shop’s other address (its pairing page says how).`;
    case 'tls':
      return `“${device ?? 'This device'}” is paired and works without network too.`;
    default:
      return door satisfies never;
  }
}
