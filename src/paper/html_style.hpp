// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "fogwright/paper/document.hpp"

namespace fogwright::paper {

/// The style sheet, for the screen and for printing at this size.
[[nodiscard]] std::string html_style(PageSize size);

}  // namespace fogwright::paper
