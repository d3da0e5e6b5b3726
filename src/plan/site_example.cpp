// SPDX-License-Identifier: Apache-2.0
#include "fogwright/plan.hpp"

namespace fogwright {

std::string_view example_site() {
  return R"(# A site file for `fogwright plan --site FILE`. Every quantity is text with its unit.
# Only [[system]] with its area and returns is needed; delete what you do not know.
format = 1

# The product profile: a file, or the name of one that is kept in the label folder.
# --label on the command line outranks it.
label = "product_profiles_demo/fenmist-rtu.toml"

# How each system's seconds are split over its returns: equal, face (face area) or airflow.
split = "face"

# Where in the band to aim: low, middle, high, or seconds per 1,000 sq ft such as "50".
rate = "middle"

# Spare product in the load, as a share of what the route needs.
reserve = 0.10

# One table an air handler.
[[system]]
name = "downstairs"
area = "1,500 sq ft"
material = "bare-metal"   # or flexible, duct-board, lined
  [[system.return]]
  name = "hall"
  face = "20x30 in"
  [[system.return]]
  name = "den"
  face = "14x20 in"

[[system]]
name = "upstairs"
area = "900 sq ft"
  [[system.return]]
  name = "landing"
  face = "20x20 in"

[building]
ceiling = "8 ft"                # or: volume = "19,200 cu ft"
closed_air_changes = "0.18 /h"  # while fogging and holding; low is cautious
purge_air_changes = "5 /h"      # while airing out, measured; or: purge_fan = "1,500 cfm"
temperature = "70 F"
relative_humidity = 50          # per cent
coldest_surface = "60 F"        # the coldest duct or coil

[fogger]
tank = "1/2 gal"
empty_weight = "9 lb"
carry_limit = "20 lb"
  # Catch tests: what the fogger put out into a measure, and for how long. Or: flow = "180 mL/min"
  [[fogger.catch]]
  caught = "178 mL"
  time = "60 s"
  [[fogger.catch]]
  caught = "182 mL"
  time = "60 s"
  [[fogger.catch]]
  caught = "180 mL"
  time = "60 s"

[site]
entrances = 3
animals = true
sensitive_person = false

# Company policy may be stricter than the tool's own, never laxer.
[policy]
least_hold_high_strength = "60 min"
occupant_factor = 10
)";
}

}  // namespace fogwright
