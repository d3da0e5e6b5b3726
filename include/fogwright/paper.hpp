// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The papers people need: a paper is described once, as data, and becomes a PDF or a page of HTML.
/// docs/papers.md says how to add one.

#include "fogwright/paper/chart.hpp"
#include "fogwright/paper/document.hpp"
#include "fogwright/paper/forms.hpp"
