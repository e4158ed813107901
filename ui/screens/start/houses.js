// @ts-check
/**
 * What each ready house type fills in: fields by path, as they would be typed. The first is whole, the others say what differs
 * from it; `null` leaves out a field and all below it. Never taken from a house type is what a person has to look at: measures of
 * the opening, mortar, windows above, the ground under the feet, and every question that can take a job out of the method.
 *
 * @type {Readonly<Record<string, Record<string, string|null>>>}
 */
const TABLE = Object.freeze({
  "two_storey_cavity": {
    "/opening/beam_depth_mm": "203", "/opening/flush": "false", "/wall/leaves/0/material": "clay_brick",
    "/wall/leaves/0/thickness_mm": "102.5", "/wall/leaves/1/material": "dense_block", "/wall/leaves/1/thickness_mm": "100",
    "/wall/leaves/1/plaster_mm": "13", "/wall/cavity_mm": "75", "/wall/outside_wall": "true", "/above/0/height_m": "2.6",
    "/above/0/floor/leaf": "inner", "/above/0/floor/inside_span_m": "4", "/above/0/floor/outside_span_m": "0",
    "/above/0/floor/direction": "onto", "/above/0/floor/continuous": "false", "/above/0/floor/joist_spacing_m": "0.4",
    "/above/0/floor/joist_depth_m": "0.22", "/above/0/floor/dead_kn_m2": "0.5", "/above/0/floor/imposed_kn_m2": "1.5",
    "/above/0/floor/partitions_kn_m2": "0.5", "/above/0/floor/bearing_m": "2.75", "/roof/kind": "trusses", "/roof/leaf": "inner",
    "/roof/span_m": "7.2", "/roof/overhang_m": "0.3", "/roof/pitch_deg": "35", "/roof/dead_kn_m2": "0.85", "/roof/ceiling_kn_m2": "0.3",
    "/roof/bears": "true", "/sides/inside/foot_level_m": "0", "/sides/outside/foot_level_m": "-0.15"
  },
  "bungalow": {
    "/above/0": null, "/opening/beam_depth_mm": "150", "/above": "[]", "/roof/bearing_m": "2.6", "/roof/span_m": "7.5"
  },
  "solid_wall_terrace": {
    "/wall/leaves/1": null, "/opening/beam_depth_mm": "178", "/wall/leaves/0/thickness_mm": "215", "/wall/leaves/0/plaster_mm": "15",
    "/wall/leaves/0/year": "1895", "/wall/cavity_mm": "0", "/above/0/floor/inside_span_m": "3.4", "/above/0/floor/bearing_m": "2.85",
    "/roof/kind": "rafters", "/roof/span_m": "6", "/roof/overhang_m": "0.2", "/roof/pitch_deg": "38", "/roof/dead_kn_m2": "0.75"
  },
  "three_storey_terrace": {
    "/wall/leaves/1": null, "/wall/leaves/0/thickness_mm": "327.5", "/wall/leaves/0/plaster_mm": "15", "/wall/leaves/0/year": "1880",
    "/wall/cavity_mm": "0", "/above/0/height_m": "2.8", "/above/0/floor/inside_span_m": "3.6", "/above/0/floor/bearing_m": "2.9",
    "/above/1/height_m": "2.8", "/above/1/floor/leaf": "inner", "/above/1/floor/inside_span_m": "3.6",
    "/above/1/floor/outside_span_m": "0", "/above/1/floor/direction": "onto", "/above/1/floor/continuous": "false",
    "/above/1/floor/joist_spacing_m": "0.4", "/above/1/floor/joist_depth_m": "0.22", "/above/1/floor/dead_kn_m2": "0.5",
    "/above/1/floor/imposed_kn_m2": "1.5", "/above/1/floor/partitions_kn_m2": "0.5", "/above/1/floor/bearing_m": "5.7"
  },
  "garage_with_room_over": {
    "/above/0/floor/inside_span_m": "3", "/above/0/floor/bearing_m": "2.85", "/roof/span_m": "5"
  },
  "internal_bearing_wall": {
    "/wall/leaves/1": null, "/roof/leaf": null, "/roof/span_m": null, "/roof/overhang_m": null, "/roof/pitch_deg": null,
    "/roof/dead_kn_m2": null, "/roof/ceiling_kn_m2": null, "/opening/beam_depth_mm": "152", "/wall/leaves/0/material": "dense_block",
    "/wall/leaves/0/thickness_mm": "100", "/wall/leaves/0/plaster_mm": "26", "/wall/cavity_mm": "0", "/wall/outside_wall": "false",
    "/above/0/floor/inside_span_m": "3.2", "/above/0/floor/outside_span_m": "3.2", "/above/0/floor/continuous": "true",
    "/roof/kind": "none", "/roof/bears": "false", "/sides/outside/foot_level_m": "0"
  }
})

export const HOUSES = Object.freeze(['bungalow', 'two_storey_cavity', 'solid_wall_terrace', 'three_storey_terrace', 'garage_with_room_over', 'internal_bearing_wall'])

/** The fields that a house type fills in; none for a name that is no house type. @param {string} name @returns {Record<string, string>} */
export function houseFields(name) {
  if (!HOUSES.includes(name)) return {}
  const own = TABLE[name]
  const gone = Object.entries(own).filter(([, text]) => text === null).map(([path]) => path)
  const left = Object.entries({ ...TABLE.two_storey_cavity, ...own }).filter(([path, text]) => text !== null && !gone.some((prefix) => path === prefix || path.startsWith(`${prefix}/`)))
  return /** @type {Record<string, string>} */ (Object.fromEntries(left))
}
