//! What is held rather than pointed: keys and a gamepad, looked at picture by picture.

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::frames::Loop;
use crate::state::hand::Pull;
use crate::task::practising::Plan;

/// Up and down the keys move at this share of the pace.
const KEYS_DOWN: f64 = 0.35;
/// Keys that are down.
#[derive(Debug, Clone, Copy, Default)]
pub struct Held {
    /// Left, right, up, down.
    pub arrows: [bool; 4],
}

impl Loop {
    /// Arrow keys that are down move the gun.
    pub(super) fn keys(&mut self, time: f64, took: f64, plan: Option<&Plan>) {
        let [left, right, up, down] = self.held.get_value().arrows;
        if !(left || right || up || down) {
            return;
        }
        let way = took * 1e-3 / plan.map_or(2.0, |p| p.pace);
        let side = |plus: bool, minus: bool| f64::from(u8::from(plus)) - f64::from(u8::from(minus));
        self.travel(time, [way * side(right, left), KEYS_DOWN * way * side(up, down)]);
    }

    /// A gamepad's sticks and trigger.
    pub(super) fn gamepad(&mut self, time: f64, took: f64, plan: Option<&Plan>) {
        let Some(pad) = gamepad() else { return };
        let axis = |i: u32| pad.axes().get(i).as_f64().filter(|v| v.abs() > 0.08).unwrap_or(0.0);
        let button =
            |i: u32| pad.buttons().get(i).dyn_into::<web_sys::GamepadButton>().map_or(0.0, |b| b.value());
        let way = 1.6 * took * 1e-3 / plan.map_or(2.0, |p| p.pace);
        let (x, y, pull) = (axis(0), axis(1), button(7));
        let farther = button(5) - button(4);
        if x != 0.0 || y != 0.0 {
            self.travel(time, [way * x, -way * y]);
        }
        if farther != 0.0 {
            self.hand.gun.update_value(|gun| gun.reach(time, 1.0 + 0.6e-3 * took * farther));
        }
        let pressed = pull > 0.02;
        let own = self.hand.device.get_untracked() == 4;
        if pressed || own {
            self.hand
                .gun
                .update_value(|gun| gun.trigger(time, if pressed { Pull::Pressed(pull) } else { Pull::Off }));
        }
        if (pressed || x != 0.0 || y != 0.0) && !own {
            self.hand.device.set(4);
        }
    }

    fn travel(&mut self, time: f64, way: [f64; 2]) {
        let half = self.window.get_untracked().size.map(|v| 0.5 * v + 0.2);
        self.last_event.set_value(time);
        self.hand.gun.update_value(|gun| {
            let at = [0, 1].map(|i| (gun.at[i] + way[i]).clamp(-half[i], half[i]));
            gun.move_to(time, at);
        });
    }
}

fn gamepad() -> Option<web_sys::Gamepad> {
    let list = window().navigator().get_gamepads().ok()?;
    list.iter().find_map(|pad| pad.dyn_into::<web_sys::Gamepad>().ok().filter(web_sys::Gamepad::connected))
}
