// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Sanitizers make everything up to ten times as slow: there a test that goes through all cases takes only some
/// of them. The plain build, which runs the same tests, takes all.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
inline constexpr bool under_sanitizers = true;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
inline constexpr bool under_sanitizers = true;
#else
inline constexpr bool under_sanitizers = false;
#endif
#else
inline constexpr bool under_sanitizers = false;
#endif
