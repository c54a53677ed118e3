// Turns a folder of published check values into cases, works them out with the terminal program, and compares each figure.
// usage: node tests/checks.mjs [FOLDER]   (default: the values that the tests of Core use; build TeamCircle.Cli first)
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = process.argv[2] ?? join(root, 'tests/TeamCircle.Core.Tests/Checks');
const program = join(root, 'src/TeamCircle.Cli/bin/Debug/net10.0/TeamCircle.Cli.dll');

// Exact arithmetic agrees to 1e-9; a standard error, an interval and a p to 1e-6 of their size.
const exactly = (name, want) => ({ name, want, tolerance: 1e-9 });
const closely = (name, want, share = 1e-6) => ({ name, want, tolerance: Math.max(1e-12, share * Math.abs(want)) });
const same = (name, want) => ({ name, want, tolerance: 0 });
const single = (name, want) => ({ name, want, tolerance: 1e-5 * Math.max(1, Math.abs(want)) }); // worked out in single precision
const date = day => new Date(Date.UTC(2026, 0, 5) + day * 864e5).toISOString().slice(0, 10);

const turn = {
  'single_case.json': all => all.map(one => ({
    id: one.id,
    case: { kind: 'series', baseline: one.A, teaching: one.B, better: one.improvement === 'increase' ? 'up' : 'down' },
    figures: [
      exactly('nap.value', one.NAP.Est), closely('nap.se', one.NAP.SE), closely('nap.low', one.NAP.CI_lower), closely('nap.high', one.NAP.CI_upper),
      exactly('tau.value', one.Tau.Est), exactly('tauU.value', one.Tau_U.Est), exactly('pnd', one.PND.Est), exactly('pem', one.PEM.Est),
      exactly('ird', one.IRD.Est), exactly('baselineCorrectedTau.value', one.Tau_BC.tau_b_corrected_Tarlow),
      closely('baselineCorrectedTau.se', one.Tau_BC.se_Tarlow), exactly('baselineCorrectedTau.sOverMn', one.Tau_BC.tau_a_corrected_S_over_mn),
      exactly('baselineCorrectedTau.baselineSlope', one.Tau_BC.theil_sen_slope_A),
      closely('baselineCorrectedTau.baselineP', one.baseline_trend_kendall.p_normal_continuity),
      same('baselineCorrectedTau.applies', one.Tau_BC['rule_Tarlow_apply_correction_if_baseline_p<=.05']),
      closely('logResponseRatio.value', one.LRR_bias_corrected.Est), closely('logResponseRatio.se', one.LRR_bias_corrected.SE),
    ],
  })),

  'trend.json': all => named(all, one => ({
    case: { kind: 'trend', x: one.x, y: one.y },
    figures: [
      ...(one.mann_kendall ? [
        same('mannKendall.s', one.mann_kendall.S), exactly('mannKendall.variance', one.mann_kendall.varS), exactly('mannKendall.z', one.mann_kendall.z),
        closely('mannKendall.p', one.mann_kendall.p), exactly('mannKendall.tauB', one.mann_kendall.tau_b),
      ] : []),
      ...(one.sen ? [exactly('theilSen.slope', one.sen.slope)] : []),
      ...(one.sen && 'gilbert_lower' in one.sen ? [
        closely('theilSen.low', one.sen.gilbert_lower), closely('theilSen.high', one.sen.gilbert_upper),
        exactly('theilSen.intercept', one.sen.intercept_median_y_minus_b_median_x),
      ] : []),
      ...[one.ols, one.nist_certified].filter(Boolean).flatMap(squares => [
        closely('ols.slope', squares.slope, 1e-9), closely('ols.intercept', squares.intercept, 1e-9),
        closely('ols.rSquared', squares.r2, 1e-9), closely('ols.slopeSe', squares.se_slope, 1e-9),
      ]),
    ],
  })),

  'kendall.json': all => named(all, one => ({
    case: { kind: 'trend', x: one.x ?? one.y.map((_, i) => i + 1), y: one.y },
    figures: [
      same('mannKendall.s', one.S), single('mannKendall.variance', one.varS), single('mannKendall.tauB', one.tau_b), single('mannKendall.p', one.p),
    ],
  })),

  'survival.json': all => [
    ...named(all, one => one.time && {
      case: { kind: 'latency', trials: trials(one), ...(one.rmst ? { upTo: one.rmst.tau } : {}) },
      figures: [
        ...(one.table ?? []).filter(row => row.n_event > 0).flatMap((row, i) => [
          same(`steps.${i}.seconds`, row.time), same(`steps.${i}.atRisk`, row.n_risk), same(`steps.${i}.answered`, row.n_event),
          exactly(`steps.${i}.waiting`, row.surv), closely(`steps.${i}.se`, row.se_greenwood),
          closely(`steps.${i}.low`, row.loglog_lower), closely(`steps.${i}.high`, row.loglog_upper),
        ]),
        same('median', one.median_smallest_t_with_S_le_half ?? null),
        exactly('restrictedMean.value', one.rmst?.rmean ?? one.rmst_tau5), ...(one.rmst ? [closely('restrictedMean.se', one.rmst.se)] : []),
      ],
    }),
    ...[all.KM01b_6MP_tau23].filter(Boolean).map(one => ({
      id: 'KM01b', case: { kind: 'latency', trials: trials(all.KM01_6MP), upTo: one.tau },
      figures: [exactly('restrictedMean.value', one.rmean), closely('restrictedMean.se', one.se)],
    })),
    ...[all.KM03_logrank].filter(Boolean).map(one => ({
      id: 'KM03', case: { kind: 'latency', trials: [...trials(all.KM01_6MP, one.groups[0]), ...trials(all.KM02_placebo, one.groups[1])] },
      figures: [closely('logRank.chiSquare', one.chisq), closely('logRank.p', one.p), same('logRank.df', 1)],
    })),
  ],

  'kappa.json': all => Object.entries(all).flatMap(([id, one]) => [
    { weights: 'none', kappa: one.kappa, se: one.ase_fleiss1969 },
    { weights: 'linear', kappa: one.weighted_linear.kappa_w, se: one.weighted_linear.ase_fleiss1969 },
    { weights: 'quadratic', kappa: one.weighted_quadratic.kappa_w, se: one.weighted_quadratic.ase_fleiss1969 },
  ].map(({ weights, kappa, se }) => ({
    id: `${id} ${weights}`, case: { kind: 'agreement', table: one.matrix, weights },
    figures: [same('trials', one.n), exactly('exact', one.po), exactly('chance', one.pe), exactly('kappa', kappa), closely('kappaSe', se)],
  }))),

  'proportion_ci.json': all => all.map(one => ({
    id: one.id, case: { kind: 'proportion', successes: one.x, trials: one.n, confidence: one.conf },
    figures: [closely('low', one.wilson[0]), closely('high', one.wilson[1])],
  })),

  'misc.json': all => Object.entries(all).flatMap(([id, one]) => misc[id.slice(0, 2)]?.(one, all).map(check => ({ id, ...check })) ?? []),
};

const misc = {
  IO: one => {
    const [first, second] = [one.obs1, one.obs2].map(codes => [...codes]);
    const share = one.point_by_point ?? one.interval_by_interval;
    const percents = {
      total: one.total_count ?? one.total_duration, meanPerInterval: one.mean_count_per_interval ?? one.mean_duration_per_occurrence,
      exactPerInterval: one.exact_count_per_interval, scored: one.scored_interval, unscored: one.unscored_interval,
    };
    const counts = Object.entries(percents).filter(([, want]) => want !== undefined).map(([name, want]) => exactly(name, want));
    return [
      ...(share === undefined ? [] : [{ case: { kind: 'agreement', first, second }, figures: [exactly('exact', share / 100)] }]),
      ...(counts.length === 0 ? [] : [{ case: { kind: 'counts', first, second }, figures: counts }]),
    ];
  },
  AI: one => {
    const dated = 'baseline_date' in one;
    const [from, to] = dated ? [one.baseline_date, one.goal_date] : [date(0), date(7 * one.weeks)];
    const at = Object.entries(one.at ?? one.at_week).map(([when, value]) => [dated ? when : date(7 * Number(when)), value]);
    const better = one.goal > one.baseline ? 'up' : 'down';
    return [{
      case: { kind: 'aimline', baselineDate: from, baselineValue: one.baseline, targetDate: to, target: one.goal, better, at: at.map(([when]) => when) },
      figures: [exactly('perWeek', one.slope_per_week), ...at.map(([, value], i) => exactly(`at.${i}.value`, value))],
    }];
  },
  PD: one => [{
    case: {
      ...aimline([22.4, 40], true), target: 40,
      probes: readJson('trend.json')['TR-05_weekly_series'].y.map((value, week) => ({ date: weeksAfter('2026-09-07', week), value })),
    },
    figures: [same('projectedDate', one.projected_date)],
  }],
  DR: one => [['four_point', 4], ['three_point', 3]].map(([rule, inARow]) => ({
    case: { ...aimline(one.aimline, one.increase), inARow, probes: one.scores.map((value, week) => ({ date: date(7 * week), value })) },
    figures: [same('decision', decisions[one[rule].split(':')[0]])],
  })),
};

const decisions = { below: 'changeTeaching', above: 'raiseTarget', mixed: 'keep', insufficient: 'tooFew' };

function aimline(values, increase) {
  const last = values.length - 1;
  return {
    kind: 'aimline', baselineDate: date(0), baselineValue: values[0], targetDate: date(7 * last), target: values[last], better: increase ? 'up' : 'down',
  };
}

function weeksAfter(first, weeks) {
  return new Date(Date.parse(first) + weeks * 7 * 864e5).toISOString().slice(0, 10);
}

function trials(curve, group) {
  return curve.time.map((seconds, i) => ({ seconds, answered: curve.status[i] === 1, ...(group ? { group } : {}) }));
}

function named(all, of) {
  return Object.entries(all).map(([id, one]) => ({ id, ...of(one) })).filter(check => check.case);
}

function readJson(file) {
  return JSON.parse(readFileSync(join(folder, file), 'utf8'));
}

function workOut(cases) {
  const scratch = mkdtempSync(join(tmpdir(), 'checks-'));
  try {
    const file = join(scratch, 'cases.json');
    writeFileSync(file, JSON.stringify(cases));
    return JSON.parse(execFileSync('dotnet', [program, 'workout', file], { encoding: 'utf8', maxBuffer: 1 << 28 }));
  } finally {
    rmSync(scratch, { recursive: true });
  }
}

function agrees({ want, tolerance }, got) {
  if (want === null || want === undefined) return got === null;
  return typeof want === 'number' ? typeof got === 'number' && Math.abs(want - got) <= tolerance : want === got;
}

let [agreed, all] = [0, 0];
for (const file of readdirSync(folder).filter(name => name.endsWith('.json')).sort()) {
  if (!turn[file]) {
    console.log(`${file}: left out`);
    continue;
  }
  const checks = turn[file](readJson(file));
  const answers = workOut(checks.map(check => check.case));
  let [here, of] = [0, 0];
  checks.forEach((check, i) => check.figures.forEach(figure => {
    const got = figure.name.split('.').reduce((at, name) => at?.[name], answers[i]);
    of += 1;
    if (agrees(figure, got)) here += 1;
    else console.error(`${file} ${check.id} ${figure.name}: ${figure.want} published, got ${got}`);
  }));
  console.log(`${file}: ${here} of ${of} in ${checks.length} cases`);
  agreed += here;
  all += of;
}
console.log(`${agreed} of ${all} agree`);
process.exitCode = all > 0 && agreed === all ? 0 : 1;
