// The front view of SciPy's first truck by a general solver of planar constraints.
//
// Its arms turn on axes along the truck, so its ball joints move in the plane of the front view as a four-bar linkage
// does, and the general solver finds the same poses: they are compared with those of SciPy's table.

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { median } from "./table.mjs";

/** Poses of a sweep, and how often it is timed. */
const POSES = 61;
const RUNS = 5;
const SWEEPS = 40;

const reference = (name) => readFileSync(new URL(`../reference/scipy/${name}`, import.meta.url), "utf8");

/**
 * Nanoseconds a pose, median of five: `kept` where the solver keeps its constraints and is told another height,
 * `anew` where it is given them again; and how far its poses are from SciPy's, mm. Nothing without the package.
 */
export async function planegcs(tools) {
  if (!tools) return null;
  const entry = createRequire(join(tools, "package.json")).resolve("@salusoft89/planegcs");
  const { GcsWrapper, init_planegcs_module: init } = await import(pathToFileURL(entry));
  const system = new GcsWrapper(new (await init()).GcsSystem());
  const { parts, at } = linkage();
  system.push_primitives_and_params([{ type: "param", name: "height", value: at.lowerBall[1] }, ...parts]);
  const pose = (height) => {
    system.set_sketch_param("height", height);
    if (system.solve() !== 0) throw new Error(`the planar solver finds no pose at ${height}`);
    system.apply_solution();
  };
  const table = balls();
  const furthest = Math.max(...table.map(([lower, upper]) => {
    pose(lower[1]);
    const found = ["3", "4"].map((id) => system.sketch_index.get_primitive_or_fail(id));
    return Math.max(...[lower, upper].map(([y, z], which) => Math.hypot(found[which].x - y, found[which].y - z)));
  }));
  const [low, high] = [table[0], table.at(-1)].map(([lower]) => lower[1]);
  const heights = Array.from({ length: POSES }, (_, step) => low + ((high - low) * step) / (POSES - 1));
  const timed = (turn) => median(Array.from({ length: RUNS }, () => {
    const begin = performance.now();
    for (let sweep = 0; sweep < SWEEPS; sweep += 1) heights.forEach(turn);
    return ((performance.now() - begin) * 1e6) / (SWEEPS * POSES);
  }));
  const kept = timed(pose);
  const anew = timed((height) => {
    system.clear_data();
    system.push_primitives_and_params([{ type: "param", name: "height", value: height }, ...parts]);
    if (system.solve() !== 0) throw new Error(`the planar solver finds no pose at ${height}`);
    system.apply_solution();
  });
  system.destroy_gcs_module();
  return { kept, anew, furthest, poses: table.length };
}

/** Two pivots, two balls, three lengths, and the height that is driven. */
function linkage() {
  const [truck] = JSON.parse(reference("trucks.json"));
  const seen = ([, y, z]) => [y, z];
  for (const arm of ["lower", "upper"]) {
    const [front, rear] = [truck[`${arm}_front_mm`], truck[`${arm}_rear_mm`]].map(seen);
    if (front.join() !== rear.join()) throw new Error(`the ${arm} arm of ${truck.name} does not turn along the truck`);
  }
  const at = {
    lower: seen(truck.lower_front_mm), upper: seen(truck.upper_front_mm),
    lowerBall: seen(truck.lower_ball_mm), upperBall: seen(truck.upper_ball_mm),
  };
  const point = (id, [x, y], fixed) => ({ id, type: "point", x, y, fixed });
  const length = (id, from, to, a, b) => ({ id, type: "p2p_distance", p1_id: from, p2_id: to, distance: Math.hypot(a[0] - b[0], a[1] - b[1]) });
  const parts = [
    point("1", at.lower, true), point("2", at.upper, true), point("3", at.lowerBall, false), point("4", at.upperBall, false),
    length("5", "1", "3", at.lower, at.lowerBall), length("6", "2", "4", at.upper, at.upperBall), length("7", "3", "4", at.lowerBall, at.upperBall),
    { id: "8", type: "coordinate_y", p_id: "3", y: "height" },
  ];
  return { parts, at };
}

/** Both balls in the front view by SciPy, for the first truck, wheels straight ahead, from droop to bump. */
function balls() {
  const [head, ...rows] = reference("poses.csv").trim().split("\n").map((line) => line.split(","));
  const cell = (row, name) => row[head.indexOf(name)];
  const [{ name }] = JSON.parse(reference("trucks.json"));
  const ours = rows.filter((row) => cell(row, "truck") === name && Number(cell(row, "link_y_mm")) === 0);
  if (ours.length < 5) throw new Error(`SciPy's table holds ${ours.length} poses of ${name}`);
  return ours.map((row) => ["lower", "upper"].map((ball) => [Number(cell(row, `${ball}_ball_y_mm`)), Number(cell(row, `${ball}_ball_z_mm`))]));
}
