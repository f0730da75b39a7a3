/** Which job, which sheet, which light. Everything a person chose is in the address or kept on this device. */
import { lazy, Suspense } from 'react';
import { Redirect, Route, Switch, useLocation, useSearchParams } from 'wouter';
import { NewerPage } from './offline/newer-page.tsx';
import { useTheme } from './sheet/theme.ts';
import { VIEWS, type ViewId } from './sheet/views.ts';
import { JobProvider } from './state/use-job.tsx';
import { chosenJob, useJobs } from './state/use-jobs.ts';

const loadOff = () => import('./off/off-screen.tsx').then((m) => ({ default: m.OffScreen }));
const loadFits = () => import('./fits/fits-screen.tsx').then((m) => ({ default: m.FitsScreen }));
const loadCatch = () => import('./catch/catch-screen.tsx').then((m) => ({ default: m.CatchScreen }));
const SCREENS = {
  off: lazy(loadOff),
  fits: lazy(loadFits),
  floor: lazy(() => import('./floor/floor-screen.tsx').then((m) => ({ default: m.FloorScreen }))),
  catch: lazy(loadCatch),
  where: lazy(() => import('./where/where-screen.tsx').then((m) => ({ default: m.WhereScreen }))),
  bags: lazy(() => import('./bags/bags-screen.tsx').then((m) => ({ default: m.BagsScreen }))),
  part: lazy(() => import('./part/part-screen.tsx').then((m) => ({ default: m.PartScreen }))),
  shop: lazy(() => import('./shop/shop-screen.tsx').then((m) => ({ default: m.ShopScreen }))),
  find: lazy(() => import('./find/find-screen.tsx').then((m) => ({ default: m.FindScreen }))),
} as const satisfies Record<ViewId, unknown>;

/**
 * The screen loads while the job is still being fetched. The planner too, where the address already asks for a plan; on
 * the first page it waits until that can be used, and is there long before anybody has named a part.
 */
const onFits = window.location.pathname.startsWith('/fits');
const asksAtOnce = onFits || new URLSearchParams(window.location.search).has('goal');
const AFTER_FIRST_PAGE_MS = 1_500;
const loadFirst = window.location.pathname.startsWith('/catch') ? loadCatch : onFits ? loadFits : loadOff;
void loadFirst()
  .then(() => import('./state/use-plan.ts'))
  .then((m) => {
    if (asksAtOnce) m.warmPlanner();
    else setTimeout(m.warmPlanner, AFTER_FIRST_PAGE_MS);
  });

export function App() {
  const [theme, setTheme] = useTheme();
  const [params] = useSearchParams();
  const [path] = useLocation();
  const jobs = useJobs();
  const id = chosenJob(jobs.list, params.get('job'));
  if (id === undefined && jobs.list === null)
    return (
      <Alone words={jobs.problem === null ? 'Fetching the jobs …' : `${jobs.problem.message} ${jobs.problem.remedy}`} />
    );
  if (id === undefined) return <Alone words="There is no job in this shop yet. Make one with: witnessmark new" />;
  const light = { theme, onTheme: setTheme, jobs: jobs.list ?? [] };
  const waiting = <Alone words="Unrolling the sheet …" />;
  return (
    <JobProvider key={id} id={id} waiting={waiting} eager={path.startsWith('/catch')}>
      <NewerPage />
      <Suspense fallback={waiting}>
        <Switch>
          {VIEWS.map((v) => {
            const Screen = SCREENS[v.id];
            return (
              <Route key={v.id} path={v.path}>
                <Screen {...light} />
              </Route>
            );
          })}
          <Route>
            <Redirect to={`/off${window.location.search}`} replace />
          </Route>
        </Switch>
      </Suspense>
    </JobProvider>
  );
}

function Alone({ words }: { readonly words: string }) {
  return (
    <div className="alone" role="status">
      <p>{words}</p>
    </div>
  );
}
